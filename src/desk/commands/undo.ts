import { z } from "zod";
import { orThrow } from "../../units/issue";
import { openJob } from "../actions";
import { declare, field, job, nothing } from "../declare";
import { takeBack, whatFalls } from "../take-back";

export const undo = declare({
  name: "undo",
  says: "take back the last thing you recorded, or a named entry, and all that followed from it",
  example: 'fettle undo "Kitchen set"',
  records: true,
  takes: z.object({
    job: job(),
    entry: field(z.string().optional(), "[entry]", "id of the entry; your own last one if not given"),
    why: field(z.string().min(1, "why it is taken back"), "--why <text>", "why it is taken back", { unsaid: "taken back" }),
    record: field(z.boolean().default(true), "--dry-run", "show what would go, take nothing back", { given: false, unsaid: true }),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const { entry, fallen } = orThrow(whatFalls(view, d.stamp.who, said.entry));
      return { entry, fallen, set: view.set, ...(said.record ? await takeBack(d, view, fallen, said.why) : {}) };
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/undo",
      body: "json",
      gives: ({ entry, revision }) => ({ json: { revision, supersedes: entry.id, kind: entry.kind } }),
    },
  ],
});
