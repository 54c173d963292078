import { z } from "zod";
import { openJob } from "../actions";
import { declare, job, output, replace } from "../declare";

export const technicalRecord = declare({
  name: "technical-record",
  says: "print the technical record as PDF: everything, every input and where it came from",
  example: 'fettle technical-record "Harbour club set" -o record.pdf',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ output: output(), replace: replace() }),
  act: async ({ job: name }, at) => {
    const { document } = await at.desk((d) => openJob(d, name));
    return at.errands.run("record", { document }, at);
  },
  routes: [
    { method: "GET", may: "bench", path: "/api/jobs/:name/technical-record.pdf", gives: (paper) => ({ paper, type: "application/pdf" }) },
  ],
});
