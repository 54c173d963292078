import { z } from "zod";
import { copyJob } from "../actions";
import { declare, field, flag, job, nothing } from "../declare";

export const copy = declare({
  name: "copy",
  says: "copy a job, or only its set for another one of the same kind",
  example: 'fettle copy "Kitchen set" "Kitchen set, second" --set-alone',
  records: true,
  takes: z.object({
    job: job(),
    name: field(z.string(), "<name>", "name of the copy"),
    setAlone: flag("--set-alone", "leave readings, work and cards behind; what was measured counts only as assumed in the copy"),
  }),
  here: nothing,
  act: ({ job: from, name, setAlone }, { desk }) => desk((d) => copyJob(d, from, name, setAlone)),
  routes: [{ method: "POST", may: "bench", path: "/api/jobs/:name/copy", body: "json", gives: (_, { name }) => ({ json: { name } }) }],
});
