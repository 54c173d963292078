import { z } from "zod";
import type { JobAsRead } from "../../job/read-job";
import { knownOf } from "../../job/rollups/known/known";
import { sayKnown } from "../../job/rollups/known/say-known";
import { seenIn, seenSchema } from "../../job/rollups/known/seen";
import { viewOf } from "../../job/view";
import type { Keeping } from "../../store/store";
import { declare, field, nothing } from "../declare";

const seenOf = ({ document }: JobAsRead) => seenIn(viewOf(document));
/** The built program, named by all that it is built of; nothing where it was not built. */
const builtAs = /fettle-[A-Z\d]+(?=\.cjs$)/.exec(import.meta.url)?.[0];
const keptSeen = seenSchema.optional();
/** How what a job saw is kept beside it. */
export const keptAs = (madeBy: string): Keeping<ReturnType<typeof seenOf>> => ({
  work: "seen",
  madeBy,
  read: (stored) => {
    const { success, data } = keptSeen.safeParse(stored);
    return success ? { made: data } : undefined;
  },
});
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
      const seen = (await d.store.ofAll(seenOf, builtAs === undefined ? undefined : keptAs(builtAs))).filter((x) => x !== undefined);
      return sayKnown(knownOf(seen, { set, part }));
    }),
  routes: [{ method: "GET", may: "bench", path: "/api/known", gives: (said) => ({ json: said }) }],
});
