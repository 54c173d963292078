import { z } from "zod";
import { kindsKept } from "../../store/kept/kept";
import { readSpan } from "../../store/kept/spans";
import { InputError, orThrow } from "../../units/issue";
import { declare, field, nothing } from "../declare";
import { sayKept } from "../keep-for";

export const keepFor = declare({
  name: "keep-for",
  says: "list how long the shop keeps what, or say it: everything is kept for ever if not given; nothing goes by itself",
  example: "fettle keep-for recordings 5 years",
  records: true,
  takes: z.object({
    kind: field(z.enum(kindsKept, `one of ${kindsKept.join(", ")}`).optional(), "[kind]", "what; all are listed if not given", {
      choices: kindsKept,
    }),
    time: field(
      z.string().max(40).default(""),
      "[time...]",
      "how long after anything was last done with it: 10 years, 18 months, 90 days, for ever",
      {
        words: (words) => words.join(" "),
      },
    ),
  }),
  here: nothing,
  act: ({ kind, time }, { desk }) =>
    desk(async (d) => {
      const kept = d.store.retention();
      if (kind !== undefined && time === "")
        throw new InputError([{ path: "time", code: "missing", read: "", expected: "how long, such as 10 years, or: for ever" }]);
      if (kind !== undefined) await kept.keepFor(kind, orThrow(readSpan(time)), d.stamp.who);
      return sayKept(await kept.spans());
    }),
  routes: [{ method: "POST", may: "keeper", path: "/api/keep-for", body: "json", gives: (kept) => ({ json: { kept } }) }],
});
