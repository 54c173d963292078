import { jobJsonSchema } from "../../job/document";
import { declare, nothing } from "../declare";

export const schema = declare({
  name: "schema",
  says: "print the JSON Schema of a job",
  example: "fettle schema > job.schema.json",
  records: false,
  takes: nothing,
  here: nothing,
  act: async () => jobJsonSchema(),
});
