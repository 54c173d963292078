import { z } from "zod";
import { takeIn } from "../actions";
import { declare, field, fileSchema, nothing, unseen } from "../declare";

export const importJob = declare({
  name: "import",
  says: "bring in a job from its zip",
  example: "fettle import harbour.zip",
  records: true,
  takes: z.object({
    file: field(fileSchema, "<file>", "zip of a job", { file: true }),
    name: field(z.string().optional(), "--name <name>", "another name for it"),
    /** takes the next free name where its own is taken: a page can't be asked for one in the same act */
    free: unseen(z.boolean().default(true), false),
  }),
  here: nothing,
  act: ({ file, name, free }, { desk }) => desk((d) => takeIn(d, file.bytes, file.name, { name, free })),
  routes: [{ method: "POST", may: "bench", path: "/api/import", body: "upload", gives: ({ name }) => ({ json: { name } }) }],
});
