import { type Dimension, dimensionOf } from "./dimensions";
import { bad, good, type Read } from "./issue";
import { own } from "./own";
import { exact, type Spread, standardUncertainty } from "./quantity";

/** How an old print is to be read where it can be read in two ways. Each is stated by the person, never guessed. */
export interface Legend {
  /** a bare M after a resistance: old US prints wrote M for thousand */
  readonly resistorM?: "thousand" | "million";
  /** `mF` and a bare `m` after a capacitance */
  readonly capacitorM?: "micro" | "milli";
  /** a capacitance without a unit: the usual legend is microfarad below 1, picofarad from 1 up */
  readonly bareCapacitor?: "usual";
}

export interface Written {
  readonly value: number;
  readonly spread: Spread;
}

/** Longest text that is looked at: every pattern below meets no more, so that none can run long. */
export const longestQuantity = 120;
const numberPattern = /^[+\-−]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d+)?/i;
const groupPattern = /^[+\-−]?\d{1,3}(?:,\d{3})+(?:\.\d+)?(?![\d.,])/;
const normalise = (text: string): string =>
  text
    .trim()
    .replace(/[μ]/g, "µ")
    .replace(/Ω|Ω/g, "Ω")
    .replace(/−/g, "-")
    .replace(/\+\s*\/?\s*-|\+-|±/g, "±")
    .replace(/\s+/g, " ");

/**
 * Reads a quantity as this trade writes it, old or new: `455 kc`, `22 µµF`, `4k7`, `3 ft`, `S9+20`, `110 pF ±5%`, `455 kHz u 0.2 kHz`.
 *
 * A tolerance after `±` is a rectangular half-width; `u` gives a standard uncertainty (normal); a trailing `tri` makes a tolerance triangular.
 * What can be read in two ways is refused with both readings named, unless a legend settles it. Value and spread are finite, or refused.
 *
 * @param text what was written
 * @param dimension what it should be
 * @param path the field it stands in, for the error
 * @param legend how old notation is to be read
 * @returns SI value with spread, or the located issue
 * @source notations of the trade; RKM code of IEC 60062
 */
export function parseQuantity(text: string, dimension: Dimension, path = dimension as string, legend: Legend = {}): Read<Written> {
  const bare = text.trim();
  if (bare.length > longestQuantity) return bad(path, "too-long", bare, `one quantity such as ${dimensionOf(dimension).examples}`);
  const read = parseWritten(normalise(bare), text, dimension, path, legend);
  if (!read.ok || (Number.isFinite(read.value.value) && Number.isFinite(standardUncertainty(read.value.spread)))) return read;
  return bad(path, "not-finite", text, `a ${dimension} such as ${dimensionOf(dimension).examples}: this one is too large for a number`);
}

function parseWritten(clean: string, text: string, dimension: Dimension, path: string, legend: Legend): Read<Written> {
  if (dimension === "sReading") return parseSReading(clean, path);
  const split = /^(.*?)\s*(±|\bu\b(?=\s*=?\s*[\d.,])|(?<=[^\d.,]\s|^)u=)\s*=?\s*(.*)$/.exec(clean);
  const head = split && split[1] !== "" ? split[1] : split ? "" : clean;
  const percentTail = /^(.+?[a-zµΩ%°'"/\d])\s+(\d+(?:[.,]\d+)?)\s*%$/i.exec(head);
  if (split && head === "" && split[2] === "±")
    return bad(path, "no-value", text, `a value before the tolerance, such as ${dimensionOf(dimension).examples}`);
  const tailUnit = split && unitOf(head) === "" ? unitOf(split[3].replace(/\s*tri(?:angular)?$/i, "")) : "";
  // 6.2 ±0.6 µV: the one unit stands behind the tolerance
  const unit = split && tailUnit !== "" && tailUnit !== "%" ? tailUnit : unitOf(head);
  const whole = unit === unitOf(head) ? head : `${head} ${unit}`;
  const value = parsePlain(!split && percentTail ? percentTail[1] : whole, dimension, path, legend);
  if (!value.ok) return value;
  if (!split && percentTail && dimension !== "fraction")
    return good({ value: value.value, spread: relative(value.value, percentTail[2], "rectangular") });
  if (!split) return good({ value: value.value, spread: exact });
  let tail = split[3];
  const triangular = /\s*tri(?:angular)?$/i.test(tail);
  tail = tail.replace(/\s*tri(?:angular)?$/i, "");
  const shape = split[2] === "±" ? (triangular ? "triangular" : "rectangular") : "normal";
  const percent = /^(\d+(?:[.,]\d+)?)\s*%$/.exec(tail);
  if (percent && dimension !== "ratio" && dimension !== "fraction")
    return good({ value: value.value, spread: relative(value.value, percent[1], shape) });
  const size = parsePlain(/^[\d.,]+(?:e[+-]?\d+)?$/i.test(tail) && unit ? `${tail} ${unit}` : tail, dimension, path, legend);
  if (!size.ok) return size;
  if (size.value < 0) return bad(path, "negative-spread", text, "a tolerance of zero or more");
  return good({ value: value.value, spread: shape === "normal" ? { shape, u: size.value } : { shape, half: size.value } });
}

const unitOf = (head: string): string => head.replace(numberPattern, "").trim();
const relative = (value: number, percent: string, shape: "rectangular" | "triangular" | "normal"): Spread => {
  const size = (Math.abs(value) * Number(percent.replace(",", "."))) / 100;
  return shape === "normal" ? { shape, u: size } : { shape, half: size };
};

function parsePlain(text: string, dimension: Dimension, path: string, legend: Legend): Read<number> {
  const d = dimensionOf(dimension);
  const expected = `a ${dimension} such as ${d.examples}`;
  if (text === "") return bad(path, "empty", text, expected);
  const rkm =
    dimension === "resistance" || dimension === "capacitance" || dimension === "inductance" ? parseRkm(text, dimension) : undefined;
  if (rkm !== undefined) return good(rkm);
  const grouped = groupPattern.exec(text);
  const m = grouped ?? numberPattern.exec(text);
  if (!m) return bad(path, "not-a-number", text, expected);
  if (grouped && dimension !== "resistance" && !grouped[0].slice(grouped[0].indexOf(",") + 1).includes(",") && !grouped[0].includes("."))
    return bad(
      path,
      "ambiguous-comma",
      text,
      `either ${grouped[0].replace(",", "")} or ${grouped[0].replace(",", ".")}: write it without the comma`,
    );
  const n = Number((grouped ? m[0].replace(/,/g, "") : m[0].replace(",", ".")).replace("−", "-"));
  if (!Number.isFinite(n)) return bad(path, "not-finite", text, expected);
  const unit = text.slice(m[0].length).trim().replace(/\.$/, "");
  const factor = unitFactor(unit, n, dimension, { path, text, legend });
  if (!factor.ok) return factor;
  if (dimension === "frequency" && /^met(?:re|er)s?$/i.test(unit)) {
    return n > 0 ? good(299792458 / n) : bad(path, "not-positive", text, "a wavelength above 0");
  }
  return good(n * factor.value);
}

/**
 * A bare figure with the units that it most likely has, likeliest first: those that the dimension's examples are written in; of a capacitor whole
 * numbers are pF and parts of one µF, as old diagrams have it.
 *
 * @param text the figure, without a unit
 * @param dimension what it is
 * @returns at most two; none where the dimension has no unit to write
 * @source common practice, no source
 */
export function withLikelyUnits(text: string, dimension: Dimension): readonly string[] {
  const bare = text.trim();
  if (dimension === "capacitance") return (Math.abs(Number(bare)) < 1 ? ["µF", "pF"] : ["pF", "µF"]).map((u) => `${bare} ${u}`);
  const units = dimensionOf(dimension)
    .examples.split(", ")
    .map((e) => /[^\d.,\s-].*$/.exec(e)?.[0] ?? "")
    .filter((u) => u !== "");
  return [...new Set(units)].slice(0, 2).map((u) => `${bare} ${u}`);
}

/** Where a figure stands, how it was written, and the legend of the print that it is from. */
interface FigureSaid {
  readonly path: string;
  readonly text: string;
  readonly legend: Legend;
}
function unitFactor(unit: string, n: number, dimension: Dimension, { path, text, legend }: FigureSaid): Read<number> {
  const d = dimensionOf(dimension);
  const two = (a: string, b: string, how: string) => bad(path, "ambiguous-unit", text, `either ${n} ${a} or ${n} ${b}: ${how}`);
  if (unit === "") {
    if (["ratio", "fraction", "decibel", "dbm", "angle", "division"].includes(dimension)) return good(1);
    // zero is zero in any unit, where none has an offset
    if (dimension === "resistance" || (n === 0 && dimension !== "temperature")) return good(1);
    if (dimension === "capacitance" && legend.bareCapacitor === "usual") return good(Math.abs(n) < 1 ? 1e-6 : 1e-12);
    if (dimension === "capacitance") return two("µF", "pF", "write the unit, or state the print's legend");
    return bad(path, "no-unit", text, `a unit: ${withLikelyUnits(text, dimension).join(" or ")}`);
  }
  if (dimension === "resistance" && (unit === "M" || unit === "m")) {
    if (legend.resistorM) return good(legend.resistorM === "thousand" ? 1e3 : 1e6);
    return two("kΩ", "MΩ", "write k or MEG; old prints used M for thousand");
  }
  if (dimension === "capacitance" && (unit === "mF" || unit === "m" || unit === "M")) {
    if (legend.capacitorM) return good(legend.capacitorM === "micro" ? 1e-6 : 1e-3);
    return two("µF", "mF (millifarad)", "write µF or mfd; old prints used m for micro");
  }
  if (dimension === "length" && unit === "M") return bad(path, "wrong-unit", text, `metres as a small m, such as ${d.examples}`);
  if (dimension === "frequency" && (unit === "m" || unit === "M")) return two("MHz", "metres", "write Mc, MHz or metres");
  if (dimension === "frequency" && /^met(?:re|er)s?$/i.test(unit)) return good(1);
  const factor = own(d.exact, unit) ?? own(d.loose, unit) ?? own(d.loose, unit.toLowerCase());
  if (factor === undefined) return bad(path, "wrong-unit", text, `a ${dimension} such as ${d.examples}`);
  return good(factor);
}

const rkmFactors: Record<string, Record<string, number>> = {
  resistance: { R: 1, r: 1, K: 1e3, k: 1e3, M: 1e6, G: 1e9 },
  capacitance: { p: 1e-12, P: 1e-12, n: 1e-9, N: 1e-9, u: 1e-6, µ: 1e-6 },
  inductance: { u: 1e-6, µ: 1e-6, m: 1e-3, n: 1e-9 },
};

/** `4k7`, `R47`, `2M2`, `4n7`: the letter stands where the point would. */
function parseRkm(text: string, dimension: "resistance" | "capacitance" | "inductance"): number | undefined {
  const m = /^(\d*)([RrKkMGpPnNuµm])(\d+)$/.exec(text);
  const factor = m ? rkmFactors[dimension][m[2]] : undefined;
  if (!m || factor === undefined) return undefined;
  return Number(`${m[1] || "0"}.${m[3]}`) * factor;
}

function parseSReading(text: string, path: string): Read<Written> {
  const m = /^S\s*(\d(?:[.,]\d+)?)(?:\s*\+\s*(\d{1,2}(?:[.,]\d+)?)\s*(?:dB)?)?$/i.exec(text);
  const s = m ? Number(m[1].replace(",", ".")) : Number.NaN;
  if (!m || s > 9 || (m[2] && s !== 9)) return bad(path, "not-an-s-reading", text, "an S-meter reading such as S7, S9 or S9+20");
  return good({ value: m[2] ? Number(m[2].replace(",", ".")) : (s - 9) * 6, spread: exact });
}
