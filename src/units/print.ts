import { type Dimension, dimensionOf } from "./dimensions";
import { isBareDoubt, type Spread } from "./quantity";

export type Notation = "new" | "old";

const trim = (n: number, decimals: number): string => n.toFixed(Math.max(0, Math.min(12, decimals))).replace(/^-(0(?:\.0*)?)$/, "$1");
/** An exact number was written by a person or follows from such in a step or two: it ends within so many digits. One that does not was computed. */
const mostOwnDigits = 10;
/**
 * A number without an uncertainty: all of its own digits where they end, as those of a marker, an edge or a nominal value do; else so many figures, since
 * nothing says that more of them mean anything.
 */
function ownDigits(x: number, figures: number): string {
  // past the last bits, which a division by the unit may have stirred
  const settled = Number(x.toPrecision(12));
  const digits = settled.toExponential().replace(/e.*$/, "").replace(/[-.]/g, "").length;
  return String(digits <= mostOwnDigits ? settled : Number(x.toPrecision(figures)));
}

/** The plain unit of a list, without a prefix; the smallest where it has none. */
const baseOf = <T extends { readonly factor: number }>(list: readonly T[]): T => list.find((x) => x.factor === 1) ?? list[list.length - 1];

/**
 * The unit that a value of this size is printed in; of a zero its plain one.
 *
 * @param value SI
 * @param dimension what it is
 * @param notation modern or as on old paper
 * @returns unit and its factor to SI
 * @source house rule: a figure of 1 to 999 where the dimension has a unit for it
 */
export function unitFor(
  value: number,
  dimension: Dimension,
  notation: Notation = "new",
): { readonly unit: string; readonly factor: number } {
  const d = dimensionOf(dimension);
  const list = (notation === "old" ? d.old : undefined) ?? d.print;
  const size = Math.abs(value);
  // nothing is nothing in any unit: it is said in the plain one
  if (size === 0) return baseOf(list);
  if (dimension === "time" && size < 120)
    return {
      unit: size < 1e-6 ? "ns" : size < 1e-3 ? "µs" : size < 1 ? "ms" : "s",
      factor: size < 1e-6 ? 1e-9 : size < 1e-3 ? 1e-6 : size < 1 ? 1e-3 : 1,
    };
  if (dimension === "voltage" && size < 10_000 && size >= 1) return { unit: "V", factor: 1 };
  // old prints write thousandths of a microfarad as such: .001 mfd, not 1000 mmf
  if (notation === "old" && dimension === "capacitance" && size >= 0.9999995e-9) return { unit: "mfd", factor: 1e-6 };
  return list.find((x) => size >= x.factor * 0.9999995) ?? list[list.length - 1];
}

/**
 * A number that is known to a standard uncertainty, with no more digits than it is known to: the leading figure of the uncertainty, or two. An exact one has
 * all of its own digits, and a computed one without an uncertainty four figures.
 *
 * @param value SI
 * @param dimension what it is
 * @param u standard uncertainty, SI; 0 for exact
 * @param notation modern or as on old paper
 * @returns text with unit
 * @source JCGM 100:2008 7.2.6 (at most two significant digits of u)
 */
export function printValue(value: number, dimension: Dimension, u = 0, notation: Notation = "new"): string {
  if (!Number.isFinite(value)) return "no value";
  if (dimension === "sReading") return printSReading(value);
  if (dimension === "chance") return printChance(value);
  const { unit, factor } = unitFor(value, dimension, notation);
  const x = value / factor;
  const text = u > 0 ? trim(x, decimalsFor(x, u / factor)) : ownDigits(x, 4);
  // what its uncertainty rounds to nothing is a zero too
  return value === 0 || Number(text) === 0 ? withUnit("0", unitFor(0, dimension, notation).unit) : withUnit(text, unit);
}

/**
 * Decimals that show an uncertainty's leading figure, or two where it leads with 1 or 2; of an exact value, three figures.
 *
 * @param x value in the unit it is printed in
 * @param u standard uncertainty in that unit, 0 for exact
 * @returns number of decimals
 * @source JCGM 100:2008 7.2.6 (at most two significant digits of u)
 */
export function decimalsFor(x: number, u: number): number {
  if (!(u > 0)) return x === 0 ? 0 : Math.max(0, 2 - Math.floor(Math.log10(Math.abs(x)) + 1e-9));
  const lead = Math.floor(Math.log10(u) + 1e-9);
  return Math.max(0, (u / 10 ** lead < 3 ? 1 : 0) - lead);
}

const withUnit = (n: string, unit: string): string => (unit === "" ? n : unit === "°" ? `${n}°` : `${n} ${unit}`);

/**
 * `7.1 kHz (6.8 to 7.4)`: a value with its interval in one unit; the interval alone where the value lies outside it.
 *
 * @param value SI; null where there is none
 * @param low lower end, SI
 * @param high upper end, SI
 * @param dimension what it is
 * @param notation modern or as on old paper
 * @returns text with unit
 * @source JCGM 100:2008 7.2.6; a quarter of a 95 % interval stands for the standard uncertainty
 */
export function printInterval(value: number | null, low: number, high: number, dimension: Dimension, notation: Notation = "new"): string {
  const best = value ?? (low + high) / 2;
  const u = (high - low) / 4;
  if (dimension === "sReading") return `${printSReading(best)} (${printSReading(low)} to ${printSReading(high)})`;
  if (dimension === "chance") return printChance(best);
  // a value well within its own doubt is told in the unit of the doubt
  const { unit, factor } = unitFor(Math.max(Math.abs(best), u), dimension, notation);
  const decimals = decimalsFor(best / factor, u / factor);
  const show = (x: number) => trim(x / factor, Math.min(decimals, 6));
  if (u <= Math.abs(best) * 1e-9) return withUnit(ownDigits(best / factor, 3), unit);
  const span = `${show(low)} to ${show(high)}`;
  return value === null || value < low || value > high ? withUnit(span, unit) : `${withUnit(show(value), unit)} (${span})`;
}

/**
 * A number without an uncertainty, in short: its own digits where they end, else three figures.
 *
 * @param value SI
 * @param dimension what it is
 * @returns text with unit
 * @source house format
 */
export function printShort(value: number, dimension: Dimension): string {
  if (!Number.isFinite(value) || dimension === "sReading" || dimension === "chance") return printValue(value, dimension);
  const { unit, factor } = unitFor(value, dimension);
  return withUnit(ownDigits(value / factor, 3), unit);
}

/**
 * Volts to three figures, as a meter is read and a chart is written: 66.5 V, 0.58 V beside 1.08 V; what is under a millivolt is nothing.
 *
 * @param readV volts
 * @returns text with unit
 * @source house format
 */
export function printVolts(readV: number): string {
  const read = Number(readV.toPrecision(3));
  return Math.abs(readV) < 1e-3 ? "0 V" : Math.abs(read) >= 0.1 ? `${read} V` : printValue(read, "voltage");
}

/**
 * Every digit that the number has: for files, for what is exact, and for what is read back.
 *
 * @param value SI
 * @param dimension what it is
 * @returns text with unit, 15 digits at most, which a double holds
 * @source IEEE 754 binary64: 15 decimal digits survive
 */
export function printExact(value: number, dimension: Dimension): string {
  if (dimension === "sReading") return printSReading(value);
  const { unit, factor } = unitFor(value, dimension);
  return withUnit(String(Number((value / factor).toPrecision(15))), unit);
}

/**
 * A value with what is known of its doubt, as the parser reads it back: `6.2 ±0.6 µV`, `455.1 kHz u 0.2 kHz`. The doubt has two figures at most, and the value
 * ends where it does; one that is exact has all of its own digits.
 *
 * @param value SI
 * @param spread SI
 * @param dimension what it is
 * @param notation modern or as on old paper
 * @returns text with unit
 * @source JCGM 100:2008 7.2.6
 */
export function printQuantity(value: number, spread: Spread, dimension: Dimension, notation: Notation = "new"): string {
  const doubt = spread.shape === "exact" ? 0 : spread.shape === "normal" ? spread.u : spread.half;
  if (!(doubt > 0) || dimension === "sReading" || dimension === "chance") return printValue(value, dimension, 0, notation);
  // a value that its doubt drowns is told in the unit of the doubt
  const { unit, factor } = unitFor(Math.max(Math.abs(value), doubt), dimension, notation);
  const decimals = decimalsFor(value / factor, doubt / factor);
  const [x, d] = [value, doubt].map((y) => trim(y / factor, decimals));
  if (spread.shape === "normal") return `${withUnit(x, unit)} u ${withUnit(d, unit)}`;
  // a bare figure before a share would be one of whatever the share is of
  return `${unit === "%" ? `${x} % ±${d} %` : withUnit(`${x} ±${d}`, unit)}${spread.shape === "triangular" ? " tri" : ""}`;
}

/**
 * A chance as it is told everywhere, in a sentence, a table and the number on top: in whole per cent, and never as none or as certain.
 *
 * @param p 0 to 1
 * @returns text with unit
 * @source house format
 */
export const printChance = (p: number): string => (p < 0.01 ? "under 1 %" : p > 0.99 ? "over 99 %" : `${Math.round(100 * p)} %`);

/**
 * A value on record in its own digits where only the rule of bare values gave it a doubt; else with no more digits than are known.
 *
 * @param q the value
 * @param dimension what it is
 * @returns text with unit
 * @source JCGM 100:2008 7.2.6; house rule: nothing is shown finer than it was written
 */
export const printKnown = (q: { readonly value: number; readonly spread: Spread; readonly source: string }, dimension: Dimension): string =>
  printValue(q.value, dimension, q.spread.shape === "normal" && !isBareDoubt(q) ? q.spread.u : 0);

function printSReading(overS9Db: number): string {
  if (overS9Db > 0) return `S9+${Number(overS9Db.toFixed(1))}`;
  return `S${Number((9 + overS9Db / 6).toFixed(1))}`;
}
