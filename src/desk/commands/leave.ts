import { z } from "zod";
import type { Entry } from "../../job/document";
import { caseStates, powerStates } from "../../job/format";
import { openJob } from "../actions";
import { declare, field, job, nothing } from "../declare";
import { record } from "../record";

const words = z.string().max(1000).default("");
export const leave = declare({
  name: "leave",
  says: "get up: how the set is left, what is clipped on or lifted, what was being done",
  example: 'fettle leave "Kitchen set" --power unplugged --case open --clipped "one end of C14 lifted" --doing "tracing the leak at V7"',
  records: true,
  takes: z.object({
    job: job(),
    power: field(z.enum(powerStates), "--power <state>", "how it is left"),
    case: field(z.enum(caseStates), "--case <state>", "open or closed"),
    clipped: field(words, "--clipped <text>", "what is clipped on, lifted or taken out"),
    doing: field(words, "--doing <text>", "what was being done"),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const { at, who, newId } = d.stamp;
      const { power, case: box, clipped, doing } = said;
      const entry: Entry = { id: newId(), at, who, kind: "standing", power, case: box, clipped, doing };
      return record(d, await openJob(d, said.job), [entry]);
    }),
  routes: [
    { method: "POST", may: "bench", path: "/api/jobs/:name/leave", body: "json", gives: ({ revision }) => ({ json: { revision } }) },
  ],
});
