import type { Answer } from "../../../ask/answered";
import { parseQuantity } from "../../../units/parse";
import { printKnown } from "../../../units/print";
import type { Quantity } from "../../../units/quantity";

/** An input that can be turned, with a value or still without one. */
export type Knobbed = Answer["quantities"][number] | Answer["absent"][number];
export const quantityOf = (q: Knobbed | undefined): Quantity | undefined => (q && "quantity" in q ? q.quantity : undefined);
/** Its value as it is shown, nothing where it has none. */
export const shown = (q: Knobbed): string => {
  const here = quantityOf(q);
  return here ? printKnown(here, q.dimension) : "";
};
/** What is read out of a text that is tried, else what is on record. */
export const triedAt = (text: string | undefined, { dimension, path }: Knobbed, base: number): number => {
  const read = text === undefined ? undefined : parseQuantity(text, dimension, path);
  return read?.ok ? read.value.value : base;
};
