import { z } from "zod";
import type { Entry } from "../../job/document";
import { hashOfBytes } from "../../store/archive";
import { InputError } from "../../units/issue";
import { openJob } from "../actions";
import { declare, fileSchema, job, nothing } from "../declare";
import { record } from "../record";

/** Media that the page shows. */
export const photographs = ["image/jpeg", "image/png"];
/** What a photograph is by its first bytes. */
const mediaOf = ([first, second]: Uint8Array): string | undefined =>
  first === 0xff && second === 0xd8 ? "image/jpeg" : first === 0x89 && second === 0x50 ? "image/png" : undefined;

/** The page's way to keep a photograph with a job. */
export const attach = declare({
  name: "attach",
  says: "keep a photograph with a job",
  records: true,
  takes: z.object({ job: job(), file: fileSchema, note: z.string().default("") }),
  here: nothing,
  act: (said, { desk }) => {
    const media = mediaOf(said.file.bytes);
    if (media === undefined)
      throw new InputError([{ path: "file", code: "bad-request", read: said.file.name, expected: "a JPEG or PNG photograph" }]);
    const { bytes } = said.file;
    const file = { hash: hashOfBytes(bytes), name: said.file.name.slice(-120) || "photograph", media, bytes };
    return desk(async (d) => {
      const { newId, at, who } = d.stamp;
      const of = { name: file.name, hash: file.hash, media, note: said.note };
      const entry: Entry = { id: newId(), at, who, kind: "attachment", ...of };
      return record(d, await openJob(d, said.job), [entry], [file]);
    });
  },
  routes: [{ method: "POST", path: "/api/jobs/:name/attach", body: "upload", gives: ({ revision }) => ({ json: { revision } }) }],
});
