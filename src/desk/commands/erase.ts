import { z } from "zod";
import { declare, field, job } from "../declare";
import { eraseJob, sayErased } from "../erase";

export const erase = declare({
  name: "erase",
  says: "remove a job for good, readings and photographs included; its zip is written first",
  example: 'fettle erase "Kitchen set" --confirm "Kitchen set"',
  records: true,
  takes: z.object({
    job: job(),
    confirm: field(z.string(), "--confirm <name>", "the name of the job, typed again to confirm", { unsaid: "" }),
    revision: z.number().int().optional(),
  }),
  here: z.object({
    export: field(
      z.string().optional(),
      "--export <file>",
      "where to write its zip first; if not given, in the current folder under the job's name",
    ),
    keep: field(z.boolean(), "--no-export", "write no zip: nothing is kept", { given: false, unsaid: true }),
  }),
  act: ({ job: name, confirm, revision }, { desk, keep }) =>
    desk(async (d) => sayErased(name, await eraseJob(d, { name, confirm, revision }, keep))),
  routes: [{ method: "POST", may: "keeper", path: "/api/jobs/:name/erase", body: "json", gives: (says) => ({ json: { says } }) }],
});
