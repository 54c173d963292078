import { z } from "zod";
import { openJob } from "../actions";
import { declare, field } from "../declare";

export const open = declare({
  name: "open",
  says: "open the page in a browser, served from this machine only",
  example: 'fettle open "Harbour club set"',
  records: false,
  takes: z.object({ job: field(z.string().optional(), "[job]", "name of the job") }),
  here: z.object({
    port: field(z.string().optional(), "--port <n>", "port to serve on; any free one if not given"),
    house: field(
      z.string().optional(),
      "--house <address>",
      "address on the house network for phones to join at; found automatically if not given",
    ),
    browser: field(z.boolean(), "--no-browser", "serve only", { given: false, unsaid: true }),
  }),
  /** refuses a job that isn't there; serving is the face's own */
  act: async ({ job: name }, { desk }) => {
    if (name !== undefined) await desk((d) => openJob(d, name));
  },
});
