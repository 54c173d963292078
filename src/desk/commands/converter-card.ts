import { z } from "zod";
import { openJob } from "../actions";
import { declare, job, output, replace } from "../declare";

export const converterCard = declare({
  name: "converter-card",
  says: "print the converter's band card as PDF: what each dial setting stands for, images, and whistles that are not signals",
  example: 'fettle converter-card "Harbour club set" -o converter.pdf',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ output: output(), replace: replace() }),
  act: async ({ job: name }, at) => {
    const { document } = await at.desk((d) => openJob(d, name));
    return at.errands.run("converterCard", { document }, at);
  },
  routes: [
    { method: "GET", may: "bench", path: "/api/jobs/:name/converter-card.pdf", gives: (paper) => ({ paper, type: "application/pdf" }) },
  ],
});
