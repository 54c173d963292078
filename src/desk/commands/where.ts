import { z } from "zod";
import { whereOf } from "../../job/rollups/where";
import { openJob } from "../actions";
import { atChassis, declare, flag, job } from "../declare";

export const where = declare({
  name: "where",
  says: "where things stand, in six lines, when you sit down again; the job's name alone does the same",
  example: 'fettle where "Kitchen set"',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ json: flag("--json", "for programs") }),
  act: ({ job: name }, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, name);
      return { title: view.set.title, lines: whereOf(view, d.stamp.at) };
    }),
  routes: [{ method: "GET", may: "bench", path: "/api/jobs/:name/where", joined: atChassis, gives: ({ lines }) => ({ json: { lines } }) }],
});
