import { z } from "zod";
import { historyColumn } from "../../job/history/card";
import { pastOf } from "../../job/history/history";
import { viewOf } from "../../job/view";
import { historyNames, historyWords } from "../../set/addresses/history";
import { InputError, type Issue } from "../../units/issue";
import { oneOf } from "../../units/nearest";
import { openJob } from "../actions";
import { atChassis, declare, field, flag, job } from "../declare";
import { pairs } from "../pairs";
import { record } from "../record";

/** What was said of one thing, cut into its word and the person's own; or what is wrong. */
function saidOf(name: string, said: string): { readonly row: number; readonly word: string; readonly words: string } | Issue {
  const row = historyNames.findIndex((n) => n.toLowerCase() === name.toLowerCase()) + 1;
  if (row === 0)
    return {
      path: name,
      code: "no-such-history",
      read: name,
      expected: oneOf(name, historyNames),
    };
  const [, head, words = ""] = /^([^:,]*)[:,]?\s*(.*)$/s.exec(said.trim()) ?? [];
  const word = historyWords.find((w) => w === head?.trim().toLowerCase());
  return word === undefined
    ? {
        path: name,
        code: "not-an-option",
        read: said,
        expected: `one of ${historyWords.join(", ")}, with words after a colon: ${name}="seen: two diodes under the socket"`,
      }
    : { row, word, words };
}

export const historyCommand = declare({
  name: "history",
  says: "what others did to the set: what is known, what it puts in doubt, what settles it; record what you saw or were told",
  example: 'fettle history "Kitchen set" rectifierChanged="seen: two diodes under the socket" slugsTurned=told',
  records: true,
  takes: z.object({
    job: job(),
    said: field(
      z.record(z.string(), z.string()),
      "[name=word...]",
      `how each stands: ${historyWords.join(", ")}, with words after a colon`,
      {
        words: (typed) => pairs(typed, "name=word"),
        unsaid: {},
      },
    ),
  }),
  here: z.object({ json: flag("--json", "for programs"), all: flag("--all", "every question, and how to tell") }),
  act: ({ job: name, said }, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, name);
      const read = Object.entries(said).map(([n, text]) => saidOf(n, text));
      const issues = read.filter((r): r is Issue => "code" in r);
      if (issues.length > 0) throw new InputError(issues);
      if (read.length === 0) return pastOf(view);
      const fields = Object.fromEntries(
        read.flatMap((r) =>
          "code" in r ? [] : [[`row ${r.row}: ${historyColumn}`, r.word], ...(r.words === "" ? [] : [[`row ${r.row}: In words`, r.words]])],
        ),
      );
      const entry = { id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "form", form: "history", fields };
      const { entries } = await record(d, view, [entry]);
      return pastOf(viewOf({ ...view.document, entries: [...view.document.entries, ...entries] }));
    }),
  routes: [
    { method: "GET", may: "bench", path: "/api/jobs/:name/history", joined: atChassis, gives: (past) => ({ json: past }) },
    { method: "POST", may: "bench", path: "/api/jobs/:name/history", body: "json", gives: (past) => ({ json: past }) },
  ],
});
