import { z } from "zod";
import { instrumentKinds } from "../../readings/scpi/commands";
import { declare, field, nothing } from "../declare";

export const instrumentCommands = declare({
  name: "instrument-commands",
  says: "print what an instrument is told, in the open standard's words (SCPI): to edit for one that has its own",
  example: "fettle instrument-commands generator",
  records: false,
  takes: z.object({ kind: field(z.enum(["generator", "voltmeter", "counter"]), "<kind>", "kind of instrument") }),
  here: nothing,
  act: async ({ kind }) => instrumentKinds[kind].standard,
});
