import { z } from "zod";
import { thermalStates } from "../../job/format";
import { orThrow } from "../../units/issue";
import { openJob } from "../actions";
import { atChassis, declare, field, job, nothing } from "../declare";
import { zeroBeat as zeroBeatEntry } from "../read-in/zero-beat";
import { record } from "../record";

export const zeroBeat = declare({
  name: "zero-beat",
  says: "record one zero beat: scale reading and frequency",
  example: 'fettle zero-beat "Harbour club set" 12.4 "3.5 MHz" --band 80 --set-point "3.5 MHz dot" --approach up',
  records: true,
  takes: z.object({
    job: job(),
    reading: field(z.string(), "<reading>", "the scale reading"),
    frequency: field(z.string(), "<frequency>", "the frequency"),
    band: field(z.string(), "--band <id>", "band of the set"),
    setPoint: field(z.string(), "--set-point <text>", "main dial setting for the bandspread scale", { unsaid: "" }),
    approach: field(z.enum(["up", "down", "not-said"]), "--approach <side>", "which way the dial was turned to reach it", {
      unsaid: "not-said",
    }),
    thermal: field(z.enum(thermalStates).optional(), "--thermal <state>", "thermal state of the set; as the sitting has it, else warm"),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const { thermal, ...rest } = said;
      const entry = orThrow(zeroBeatEntry(view, { ...rest, ...(thermal ? { thermal } : {}) }, d.stamp));
      return { entry, revision: (await record(d, view, [entry])).revision };
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/zero-beat",
      joined: atChassis,
      body: "json",
      gives: ({ entry, revision }) => ({ json: { revision, id: entry.id } }),
    },
  ],
});
