import { z } from "zod";
import { orThrow } from "../../units/issue";
import { openJob } from "../actions";
import { declare, field, job, nothing } from "../declare";
import { entryNamed, takeBack, whatFalls } from "../take-back";

export const correct = declare({
  name: "correct",
  says: "take back an entry: it stays in the history, superseded",
  example: 'fettle correct "Kitchen set" 3f2a… --why "read the wrong scale"',
  records: true,
  takes: z.object({
    job: job(),
    entry: field(z.string(), "<entry>", "id of the entry, or its first characters"),
    why: field(z.string(), "--why <text>", "why it is taken back"),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const { fallen } = orThrow(whatFalls(view, d.stamp.who, orThrow(entryNamed(view, said.entry)).id));
      await takeBack(d, view, fallen, said.why);
      return fallen;
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/correct",
      body: "json",
      gives: (fallen) => ({ json: { fallen: fallen.map((e) => e.id) } }),
    },
  ],
});
