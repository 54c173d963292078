import { z } from "zod";
import { openJob } from "../actions";
import { declare, flag, job } from "../declare";

export const proof = declare({
  name: "proof",
  says: "the performance record: each value as found, as left and by the model, with its method",
  example: 'fettle proof "Harbour club set"',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ json: flag("--json", "for programs") }),
  act: async ({ job: name }, at) => {
    const { document, set } = await at.desk((d) => openJob(d, name));
    return { title: set.title, lines: await at.errands.run("proof", { document }, at) };
  },
  routes: [{ method: "GET", may: "bench", path: "/api/jobs/:name/proof", gives: ({ lines }) => ({ json: { lines } }) }],
});
