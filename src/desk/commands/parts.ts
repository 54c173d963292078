import { z } from "zod";
import { partsCsv } from "../../job/rollups/parts";
import { openJob } from "../actions";
import { declare, field, job, replace } from "../declare";

export const parts = declare({
  name: "parts",
  says: "the shopping list: every part the answers call for, and those already in",
  example: 'fettle parts "Harbour club set" --csv parts.csv',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ csv: field(z.string().optional(), "--csv <file>", "write it as CSV too"), replace: replace() }),
  act: async ({ job: name }, at) => {
    const { document } = await at.desk((d) => openJob(d, name));
    return at.errands.run("parts", { document }, at);
  },
  routes: [
    { method: "GET", may: "bench", path: "/api/jobs/:name/parts", gives: (list) => ({ json: list }) },
    {
      method: "GET",
      may: "bench",
      path: "/api/jobs/:name/parts.csv",
      gives: ({ lines }) => ({ paper: partsCsv(lines), type: "text/csv; charset=utf-8", file: "parts.csv" }),
    },
  ],
});
