import { z } from "zod";
import { tellMark } from "../../standards/marks/tell-mark";
import { orThrow } from "../../units/issue";
import { declare, field, nothing } from "../declare";

export const mark = declare({
  name: "mark",
  says: "read the marks on an old part",
  example: "fettle mark mica-dots red green black",
  records: false,
  takes: z.object({
    kind: field(z.string(), "<kind>", "kind of marking, as listed below"),
    marks: field(z.array(z.string()), "<marks...>", "the marks, in order"),
  }),
  here: nothing,
  act: async ({ kind, marks }) => orThrow(tellMark(kind, marks.join(" "))),
});
