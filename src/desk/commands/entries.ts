import { z } from "zod";
import { InputError } from "../../units/issue";
import { openJob } from "../actions";
import { declare, job, nothing } from "../declare";
import { record } from "../record";

/** Kinds of entry that the page makes whole: what it writes on a card, a step proved, an instrument, an entry taken back. All else has a command. */
const allowed = ["form", "done", "instrument", "correction"];

/** The page's way to record several entries at once, all or none. */
export const entries = declare({
  name: "entries",
  says: "record entries of a card, a proved step, an instrument or a correction",
  records: true,
  takes: z.object({ job: job(), entries: z.array(z.looseObject({ kind: z.string() })).min(1) }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const { newId, at, who } = d.stamp;
      const made = said.entries.map((e) => {
        if (!allowed.includes(e.kind))
          throw new InputError([{ path: "kind", code: "bad-request", read: e.kind, expected: `one of ${allowed.join(", ")}` }]);
        return { ...e, broughtIn: undefined, id: newId(), at, who };
      });
      return record(d, await openJob(d, said.job), made);
    }),
  routes: [
    {
      method: "POST",
      path: "/api/jobs/:name/entries",
      body: "json",
      gives: (kept) => ({ json: { revision: kept.revision, ids: kept.entries.map((e) => e.id) } }),
    },
  ],
});
