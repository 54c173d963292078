import { z } from "zod";
import { orThrow } from "../../units/issue";
import { openJob } from "../actions";
import { assignment } from "../assignment";
import { declare, field, job, nothing, whence } from "../declare";
import { pairs } from "../pairs";
import { record } from "../record";

export const set = declare({
  name: "set",
  says: "record a value or a fact about the set",
  example: 'fettle set "Kitchen set" line.today="121 V ±1 V" --origin measured --why "meter at the outlet"',
  records: true,
  takes: z.object({
    job: job(),
    values: field(
      z.array(z.object({ path: z.string(), text: z.string() })).min(1),
      "<path=value...>",
      "each value at its path (fettle show lists them)",
      { words: (typed) => Object.entries(pairs(typed, "value")).map(([path, text]) => ({ path, text })) },
    ),
    origin: whence(),
    why: field(z.string(), "--why <text>", "source, in your words", { unsaid: "typed in" }),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const how = { origin: said.origin, why: said.why || "typed in" };
      const entries = said.values.map((v) => orThrow(assignment(view, v.path, v.text, how, d.stamp)));
      return record(d, view, entries);
    }),
  routes: [
    { method: "POST", may: "bench", path: "/api/jobs/:name/values", body: "json", gives: ({ revision }) => ({ json: { revision } }) },
  ],
});
