import { onceFor } from "../numerics/once";
import type { Entry } from "./document";
import type { JobView } from "./fold";
import { entryIn, ofAct, ofKind } from "./place-in";
import { entryOfReading } from "./readings-in";

/** The reading that an entry is, or was fitted to. */
function readingOf(view: JobView, e: Entry): string | undefined {
  if (e.kind === "reading") return e.reading.id;
  if (e.kind === "estimate") return e.estimate.fromReadings[0];
  if (e.kind !== "values") return undefined;
  return e.fit === undefined ? undefined : view.estimates.get(e.fit)?.fromReadings[0];
}
/** What was made of each reading, by its id. */
const madeOf = onceFor((view: JobView): ReadonlyMap<string, readonly Entry[]> => {
  const out = new Map<string, Entry[]>();
  for (const e of ofKind(view.inForce, "estimate", "values")) {
    const reading = readingOf(view, e);
    if (reading !== undefined) out.set(reading, [...(out.get(reading) ?? []), e]);
  }
  return out;
});

/**
 * Entries that fall together when one is taken back: with a reading the fit made of it, with a part of a fit the whole fit.
 *
 * @param view the job as it stands
 * @param entry the one to take back
 * @param whole whether a part of a fit takes its reading along
 * @returns entries in force, in order, `entry` among them
 * @source house frame
 */
export function fallWith(view: JobView, entry: Entry, whole = false): readonly Entry[] {
  const act = entry.kind === "work" ? entry.id : entry.partOf;
  // a piece of work and what it changed of the record are one act
  const together = act === undefined ? [] : ofAct(view.inForce, act);
  if (together.length > 0) return together;
  const reading = readingOf(view, entry);
  if (reading === undefined) return [entry];
  const itself = entry.kind === "reading" ? entry : entryIn(view.inForce, entryOfReading(view.inForce).get(reading));
  const made = madeOf(view).get(reading) ?? [];
  return itself && (whole || entry.kind === "reading") ? [itself, ...made] : made;
}
