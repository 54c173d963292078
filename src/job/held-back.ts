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
export const doneBefore = (e: Timed, other: Timed): boolean => e.received !== undefined && Date.parse(e.at) < Date.parse(other.at);

const minute = (at: string): string => at.slice(0, 16).replace("T", " ");
/**
 * When an entry was done; of one that was held, whose clock says so and when it came in.
 *
 * @param e the entry
 * @returns to the minute, UTC
 * @source house frame
 */
export const sayWhen = (e: Timed): string =>
  e.received === undefined ? minute(e.at) : `${minute(e.at)} by that bench's clock, came in ${minute(e.received)}`;
