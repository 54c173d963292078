import { z } from "zod";
import { foundAndLeftOf } from "../../job/rollups/chart-lines";
import { openJob } from "../actions";
import { atChassis, declare, flag, job } from "../declare";

export const foundAndLeft = declare({
  name: "found-and-left",
  says: "volts, ohms and parts in one table: by the chart, as found, as left, by the model, each with meter and line",
  example: 'fettle found-and-left "Kitchen set"',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ json: flag("--json", "for programs") }),
  act: async ({ job: name }, { desk }) => foundAndLeftOf(await desk((d) => openJob(d, name))),
  routes: [
    { method: "GET", may: "bench", path: "/api/jobs/:name/found-and-left", joined: atChassis, gives: (lines) => ({ json: { lines } }) },
  ],
});
