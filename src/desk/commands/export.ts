import { z } from "zod";
import { exported } from "../actions";
import { declare, field, job, replace } from "../declare";

export const exportJob = declare({
  name: "export",
  says: "write a job as one zip of open files",
  example: 'fettle export "Harbour club set" harbour.zip',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ file: field(z.string(), "<file>", "zip to write"), replace: replace() }),
  act: ({ job: name }, { desk }) =>
    desk(async (d) => {
      // the revision from before: a job that changes meanwhile is not erased by what was exported of it
      const revision = await d.store.revision(name);
      return { ...(await exported(d, name)), revision };
    }),
  routes: [
    {
      method: "GET",
      may: "bench",
      path: "/api/jobs/:name/export.zip",
      gives: ({ zip, revision }) => ({ paper: zip, type: "application/zip", file: "job.zip", revision }),
    },
  ],
});
