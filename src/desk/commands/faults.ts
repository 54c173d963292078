import { z } from "zod";
import { openJob } from "../actions";
import { atChassis, declare, flag, job } from "../declare";

export const faults = declare({
  name: "faults",
  says: "the faults of a job: what was noticed or read off its chart, what explains it, which test comes next, what mended it",
  example: 'fettle faults "Kitchen set"',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ json: flag("--json", "for programs") }),
  act: async ({ job: name }, at) => {
    const { document } = await at.desk((d) => openJob(d, name));
    return at.errands.run("faults", { document }, at);
  },
  routes: [{ method: "GET", may: "bench", path: "/api/jobs/:name/faults", joined: atChassis, gives: (faults) => ({ json: { faults } }) }],
});
