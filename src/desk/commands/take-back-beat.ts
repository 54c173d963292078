import { z } from "zod";
import { orThrow } from "../../units/issue";
import { openJob } from "../actions";
import { declare, job, nothing } from "../declare";
import { record } from "../record";
import { takeBackBeat as takenBack } from "../take-back-beat";

/** The page's way to take a zero beat back: by the reading that holds it and its row there, which it has in hand. */
export const takeBackBeat = declare({
  name: "take-back-beat",
  says: "take back one zero beat, by its reading and its row there",
  records: true,
  takes: z.object({ job: job(), reading: z.string(), row: z.number().int().min(0) }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const entries = orThrow(takenBack(view, said.reading, said.row, "zero beat taken back on the page", d.stamp));
      return record(d, view, entries);
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/take-back-beat",
      body: "json",
      gives: ({ revision }) => ({ json: { revision } }),
    },
  ],
});
