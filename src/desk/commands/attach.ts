import { z } from "zod";
import type { Entry } from "../../job/document";
import { openJob } from "../actions";
import { declare, fileSchema, job, nothing } from "../declare";
import { photographOf } from "../photograph";
import { record } from "../record";

/** The page's way to keep a photograph with a job. */
export const attach = declare({
  name: "attach",
  says: "keep a photograph with a job",
  records: true,
  takes: z.object({ job: job(), file: fileSchema, note: z.string().default("") }),
  here: nothing,
  act: (said, { desk }) => {
    const file = photographOf(said.file, "file");
    return desk(async (d) => {
      const { newId, at, who } = d.stamp;
      const of = { name: file.name, hash: file.hash, media: file.media, note: said.note };
      const entry: Entry = { id: newId(), at, who, kind: "attachment", ...of };
      const { revision } = await record(d, await openJob(d, said.job), [entry], [file]);
      return { revision, hash: file.hash };
    });
  },
  routes: [{ method: "POST", may: "bench", path: "/api/jobs/:name/attach", body: "upload", gives: (kept) => ({ json: kept }) }],
});
