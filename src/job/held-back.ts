import { momentInWords } from "../units/day";
import type { Entry } from "./document";

type Timed = Pick<Entry, "at" | "received">;
/**
 * Whether an entry that a bench held back was done before another that came in ahead of it: what it proves is of before.
 *
 * @param e the entry
 * @param other one that is recorded before it
 * @returns true only where it was held
 * @source house rule
 */
export const doneBefore = (e: Timed, other: Timed): boolean => doneBeforeMs(e, Date.parse(other.at));
/**
 * The same against the latest of many that are recorded before it: when that was, by laterMs.
 *
 * @param e the entry
 * @param ms since 1970
 * @returns true only where it was held
 * @source house rule
 */
export const doneBeforeMs = (e: Timed, ms: number): boolean => e.received !== undefined && Date.parse(e.at) < ms;
/**
 * The later of a time and of when an entry was done.
 *
 * @param ms since 1970
 * @param e the entry
 * @returns ms since 1970
 * @source house frame
 */
export function laterMs(ms: number, e: Timed): number {
  const own = Date.parse(e.at);
  if (own > ms) return own;
  return ms;
}

/**
 * Entries in the order in which they were done: one that was held stands where it was done, all others as they were recorded.
 *
 * @param entries in the order in which they were recorded
 * @returns the same ones
 * @source house rule
 */
export function asDone<E extends Timed>(entries: readonly E[]): readonly E[] {
  if (!entries.some((e) => e.received !== undefined)) return entries;
  const out: E[] = [];
  for (const e of entries) {
    let at = out.length;
    while (at > 0 && doneBefore(e, out[at - 1])) at--;
    out.splice(at, 0, e);
  }
  return out;
}

/**
 * When an entry was done; of one that was held, whose clock says so and when it came in.
 *
 * @param e the entry
 * @returns to the minute, UTC
 * @source house frame
 */
export const sayWhen = (e: Timed): string =>
  e.received === undefined ? momentInWords(e.at) : `${momentInWords(e.at)} by that bench's clock, came in ${momentInWords(e.received)}`;
