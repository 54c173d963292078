import { z } from "zod";
import { openJob } from "../actions";
import { declare, job, output, replace } from "../declare";

export const report = declare({
  name: "report",
  says: "print the owner's report as PDF: what was wrong, what was done, before and after, how to use it, what to watch",
  example: 'fettle report "Harbour club set" -o report.pdf',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ output: output(), replace: replace() }),
  act: async ({ job: name }, at) => {
    const { document } = await at.desk((d) => openJob(d, name));
    return at.errands.run("report", { document }, at);
  },
  routes: [{ method: "GET", may: "owner", path: "/api/jobs/:name/report.pdf", gives: (paper) => ({ paper, type: "application/pdf" }) }],
});
