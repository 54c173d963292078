import type { SetDescription } from "../../set/describe";
import type { Dimension } from "../../units/dimensions";
import { printKnown, printValue } from "../../units/print";
import type { Quantity } from "../../units/quantity";

/** A rating as it stands on a plate: of one that nobody has looked at only what is usual, and that it is. */
const rating = (q: Quantity, dimension: Dimension): string =>
  q.origin === "assumed" ? `${printValue(q.value, dimension)} (usual, not looked at)` : printKnown(q, dimension);
/**
 * The line that a set is made for, as its papers have it.
 *
 * @param set the set
 * @returns such as `117 V, 60 Hz`; a doubt that stands for nobody having looked is said in words
 * @source house format
 */
export const ratedLineSaid = ({ line }: Pick<SetDescription, "line">): string =>
  [rating(line.voltage, "voltage"), rating(line.frequency, "frequency")].join(", ");
