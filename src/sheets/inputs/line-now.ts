import { line } from "../../set/addresses/power";
import type { Bench } from "../../set/bench";
import { type Quantity, tolerance } from "../../units/quantity";

/** Today's line as it was read at the outlet; undefined where nobody has. */
export const lineToday = (b: Bench): Quantity | undefined => b.quantity(line.today.address);
/**
 * The rated line in place of one that nobody has read.
 *
 * @param b the set
 * @returns V within 3 %; undefined where no rated line is known
 * @source common practice, no source
 */
export function lineAsRated(b: Bench): Quantity | undefined {
  const rated = b.quantity(line.voltage.address);
  return rated && { ...rated, spread: tolerance(0.03 * rated.value), origin: "assumed", source: "its rated voltage, not measured today" };
}
