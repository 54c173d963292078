import type { Figure } from "../../../ask/results";
import { dbOf } from "../../../physics/noise";
import type { Dimension } from "../../../units/dimensions";
import { printValue } from "../../../units/print";
import { type Quantity, standardUncertainty } from "../../../units/quantity";
import type { Measured } from "./pairs";

/**
 * What two figures of one kind say: their difference in the unit that suits it, and whether it is more than both are known to.
 *
 * @param dimension of both; volts are compared in dB
 * @param a the later one, SI
 * @param b the earlier one, SI
 * @returns words
 * @source a difference of more than two standard uncertainties is told as one; common practice, no source
 */
export function difference(dimension: Dimension, a: Quantity, b: Quantity): string {
  const asDb = dimension === "voltage";
  const d = asDb ? dbOf((a.value / b.value) ** 2) : a.value - b.value;
  const u = asDb
    ? 8.686 * Math.hypot(standardUncertainty(a.spread) / a.value, standardUncertainty(b.spread) / b.value)
    : Math.hypot(standardUncertainty(a.spread), standardUncertainty(b.spread));
  const size = printValue(Math.abs(d), asDb ? "decibel" : dimension, Math.max(u, Math.abs(d) / 50));
  return Math.abs(d) <= 2 * u ? `no certain difference (${size})` : `${size} ${d > 0 ? "more" : "less"} than as found`;
}
const asQuantity = (f: Figure): Quantity => ({
  value: f.value ?? ((f.low ?? 0) + (f.high ?? 0)) / 2,
  spread: { shape: "normal", u: ((f.high ?? 0) - (f.low ?? 0)) / 4 },
  origin: "computed",
  source: "model",
});
/**
 * What a figure says of the model.
 *
 * @param m as measured
 * @param model as the model gives it
 * @returns words
 * @source the same
 */
export function againstModel(m: Measured, model: Figure): string {
  const d = m.quantity.value - asQuantity(model).value;
  const u = Math.hypot(standardUncertainty(m.quantity.spread), standardUncertainty(asQuantity(model).spread));
  return Math.abs(d) <= 2 * u
    ? "as the model gives"
    : `${printValue(Math.abs(d), m.dimension, Math.max(u / 2, Math.abs(d) / 20))} ${d > 0 ? "above" : "below"} the model`;
}
