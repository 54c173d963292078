import { z } from "zod";
import { benchFaults, startSimulatedBench } from "../../instruments/simulated-bench";
import { declare, field } from "../declare";

export const simulatedBench = declare({
  name: "simulated-bench",
  says: "run a generator, a voltmeter and a counter that don't exist, with an invented receiver between them: to try `sweep` on",
  example: "fettle simulated-bench --fault drop",
  records: false,
  takes: z.object({
    port: field(
      z.coerce.number().int().min(1).max(65533),
      "--port <number>",
      "port of the generator; voltmeter and counter take the next two",
      {
        unsaid: "5025",
      },
    ),
    avc: field(z.enum(["off", "on"]), "--avc <state>", "AVC of the invented receiver", { unsaid: "off" }),
    fault: field(z.enum(benchFaults).optional(), "--fault <fault>", "what goes wrong"),
    wellFor: field(z.coerce.number().int().min(0), "--after <count>", "how many answers go well before it does", { unsaid: "100" }),
  }),
  here: z.object({}),
  act: ({ avc, ...said }) => startSimulatedBench({ ...said, receiver: { avc } }),
});
