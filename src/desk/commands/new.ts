import { z } from "zod";
import { setFromOutline } from "../../set/outline";
import { InputError, orThrow } from "../../units/issue";
import { newJob as make, patternNamed } from "../actions";
import { declare, field, flag } from "../declare";
import { pairs } from "../pairs";

export const newJob = declare({
  name: "new",
  says: "start a job, from a pattern or from what you say about the set",
  example: 'fettle new "Kitchen set" --pattern five-tube-live',
  records: true,
  takes: z.object({
    name: field(z.string().optional(), "[name]", "name of the new job"),
    pattern: field(z.string().optional(), "--pattern <id>", "pattern to start from (fettle patterns lists them)"),
    outline: field(
      z.record(z.string(), z.string()).optional(),
      "--field <name=value>",
      "describe the set from scratch, field by field (repeat as needed)",
      { words: (typed) => pairs(typed, "--field") },
    ),
  }),
  here: z.object({ fields: flag("--fields", "list the fields of a description, and what is assumed where one is left out") }),
  act: async ({ name, pattern, outline }, { desk }) => {
    if (name === undefined)
      throw new InputError([
        { path: "name", code: "no-name", read: "", expected: "a name for the job (fettle new --fields lists what a description can hold)" },
      ]);
    if ((pattern === undefined) === (outline === undefined))
      throw new InputError([
        {
          path: "--pattern",
          code: "no-start",
          read: pattern ?? "",
          expected: "either a pattern, or fields of a description (fettle new --fields lists them)",
        },
      ]);
    const set = pattern === undefined ? orThrow(setFromOutline(outline ?? {})) : patternNamed(pattern);
    await desk((d) => make(d, name, set));
    return { name };
  },
  routes: [{ method: "POST", may: "bench", path: "/api/jobs", body: "json", gives: ({ name }) => ({ json: { name } }) }],
});
