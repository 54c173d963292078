import { z } from "zod";
import { knownOf } from "../../job/rollups/known/known";
import { sayKnown } from "../../job/rollups/known/say-known";
import { type SetSeen, seenIn } from "../../job/rollups/known/seen";
import { viewOf } from "../../job/view";
import { declare, field, nothing } from "../declare";

const words = z.string().max(200).default("");

export const known = declare({
  name: "known",
  says: "what the records of all jobs know of a kind of set or part: how often a can was off and by how much, what failed, how sets drift; with counts",
  example: 'fettle known --set "nine-tube" --part "screen bypass"',
  records: false,
  takes: z.object({
    set: field(words, "--set <words>", "words from the name of that kind of set, by its intake card or title; all sets if not given"),
    part: field(words, "--part <words>", "words from the kind of part, such as wax paper or 6BA6; all parts if not given"),
  }),
  here: nothing,
  act: ({ set, part }, { desk }) =>
    desk(async (d) => {
      const { jobs } = await d.store.list();
      const seen: SetSeen[] = [];
      for (const { name } of [...jobs].reverse()) {
        // others have their turn between two jobs
        await new Promise((r) => setImmediate(r));
        const found = await d.store.load(name).catch(() => undefined);
        const own = found && seenIn(viewOf(found.document));
        if (own) seen.push(own);
      }
      return sayKnown(knownOf(seen, { set, part }));
    }),
  routes: [{ method: "GET", may: "bench", path: "/api/known", gives: (said) => ({ json: said }) }],
});
