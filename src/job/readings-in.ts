import { onceFor } from "../numerics/once";
import type { Entry, EntryOf } from "./document";
import { ofKind } from "./place-in";

type Read = EntryOf<"reading">;
/**
 * The last of the readings that are alike in what they are of: stage, step, band, kind, as found or as left. Whether there is one, and which is the last, is
 * asked of these few.
 *
 * @param entries in order; not changed once they were asked
 * @returns entries, the one that was recorded last at the end
 * @source house frame
 */
export const lastRead = onceFor((entries: readonly Entry[]): readonly Read[] => {
  const last = new Map<string, Read>();
  for (const e of ofKind(entries, "reading")) {
    const { state, stage, step, as, band } = e.reading;
    const key = [state, stage, step, as, band].join("\0");
    // taken out and put back in, so that it stands where it was recorded
    last.delete(key);
    last.set(key, e);
  }
  return [...last.values()];
});
/**
 * The readings of one kind, such as sweeps of the IF.
 *
 * @param entries in order; not changed once they were asked
 * @param as kind of reading
 * @returns entries, in the same order
 * @source house frame
 */
export const readAs: (entries: readonly Entry[], as: Read["reading"]["as"]) => readonly Read[] = onceFor(
  (entries: readonly Entry[], as: Read["reading"]["as"]) => ofKind(entries, "reading").filter((e) => e.reading.as === as),
  (as) => as,
);
/**
 * Which entry brought a reading.
 *
 * @param entries in order; not changed once they were asked
 * @returns ids of entries by those of their readings
 * @source house frame
 */
export const entryOfReading = onceFor(
  (entries: readonly Entry[]): ReadonlyMap<string, string> => new Map(ofKind(entries, "reading").map((e) => [e.reading.id, e.id])),
);
