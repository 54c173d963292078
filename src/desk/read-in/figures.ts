import type { Reading } from "../../job/document";
import type { ZeroBeats } from "../../readings/zero-beats";
import type { Dimension } from "../../units/dimensions";
import { printInterval, printQuantity } from "../../units/print";
import { type Quantity, standardUncertainty } from "../../units/quantity";

/** A figure of a reading as it is kept: its quantity, and its text with the digits that are known. */
export type FigureRow = Reading["figures"][number];
/** From a quantity. */
export const row = (name: string, dimension: Dimension, quantity: Quantity): FigureRow => {
  const u = standardUncertainty(quantity.spread);
  return {
    name,
    dimension,
    quantity,
    text:
      u > 0
        ? printInterval(quantity.value, quantity.value - 1.96 * u, quantity.value + 1.96 * u, dimension)
        : printQuantity(quantity.value, quantity.spread, dimension),
  };
};
/** From a plain number, with its standard uncertainty where there is one. */
export const plain = (name: string, dimension: Dimension, value: number, source: string, u = 0): FigureRow =>
  row(name, dimension, { value, spread: u > 0 ? { shape: "normal", u } : { shape: "exact" }, origin: "measured", source });

/** Figures of zero beats as they were read. */
export const zeroBeatFigures = (z: ZeroBeats, source: string): FigureRow[] => [
  plain("zero beats", "ratio", z.reading.length, source),
  plain("lowest", "frequency", Math.min(...z.frequencyHz), source),
  plain("highest", "frequency", Math.max(...z.frequencyHz), source),
];
