import type { Dimension } from "./dimensions";
import { longestQuantity, parseQuantity } from "./parse";
import { unitFor } from "./print";
import { bareSaid, type Origin, type Quantity, type Spread, tolerance } from "./quantity";

/**
 * How well a value is known of which nobody said a tolerance: exact by nature, as a count, a limit, a choice, a nominal rating or what is itself a doubt; as
 * a part is marked; as tubes of a type scatter; as a meter reads; or as its digits say.
 */
export type Bare = "exact" | "part" | "tube" | "reading" | "digit";

/** A part without a tolerance band or letter. Source: IEC 60062, 20 % where no band is; RETMA's colour code of the era has the same. */
export const unmarkedPart = 0.2;
/** Scatter of tubes of one type, one standard deviation: half of the 30 % that a commentary gives about the mean (read). */
export const tubeScatter = 0.15;
/** One standard deviation of a reading where the meter is not known: a pointer meter's, or a bridge's or ohmmeter's. Common practice, no source. */
export const meterUnknown = 0.02;
/** Half of the last digit, but no more of the value than this: few write a zero behind the point. Common practice, no source. */
const mostOfDigit = 0.05;

const usualOf: Partial<Record<Dimension, Bare>> = {
  capacitance: "part",
  resistance: "part",
  inductance: "part",
  conductance: "tube",
  voltage: "reading",
  current: "reading",
};
/** What a dimension's values are, where an address says nothing else of its own. */
export const bareOf = (dimension: Dimension, said?: Bare): Bare => said ?? usualOf[dimension] ?? "digit";

/** What read a value: its name, and one standard deviation of what it reads, relative. */
export interface ReadWith {
  readonly name: string;
  readonly share: number;
}
/** What is known of a typed value beside the value: the text it was typed as, and what read it. */
export interface BareSaid {
  readonly text?: string;
  readonly meter?: ReadWith | undefined;
}

/**
 * One unit of the last digit that was typed: `121.4 V` has 0.1 V, `4k7` 100 ohm.
 *
 * @param text as typed
 * @param dimension what it is
 * @returns SI; 0 of a bare nothing, and where the text has no digits
 * @source identity
 */
export function lastDigitOf(text: string, dimension: Dimension): number {
  const said = text.trim().slice(0, longestQuantity);
  const [number] = /^[+\-−]?(?:\d*[RrKkMGpPnNuµm]\d+(?![\d.,])|[\d.,]+)/.exec(said) ?? [""];
  const k = number.search(/\d(?=\D*$)/);
  if (k < 0) return 0;
  if (/^[^1-9]*$/.test(number) && !/[.,]/.test(number)) return 0;
  const one = number.replace(/\d/g, "0").replace(/^[+\-−]/, "");
  const last = one.search(/\d(?=\D*$)/);
  const rest = said.slice(number.length).replace(/\s*(?:±|\+\s*\/?\s*-|\bu\b).*$/, "");
  // a length of wave goes the other way: the same part of it
  if (dimension === "frequency" && /^\s*met(?:re|er)s?\s*$/i.test(rest)) {
    const n = Number(number.replace(",", "."));
    const whole = parseQuantity(`${number}${rest}`, dimension);
    return whole.ok ? (whole.value.value * 10 ** -(number.split(/[.,]/)[1]?.length ?? 0)) / n : 0;
  }
  const read = parseQuantity(`${one.slice(0, last)}1${one.slice(last + 1)}${rest}`, dimension);
  return read.ok ? Math.abs(read.value.value) : 0;
}

/** One unit of the last digit of a value whose text nobody kept: as it stands in the unit it is printed in. */
function digitOfValue(value: number, dimension: Dimension): number {
  const { factor } = unitFor(value, dimension);
  const own = String(Number((value / factor).toPrecision(10)));
  return /e/.test(own) ? 0 : factor * 10 ** -(own.split(".")[1]?.length ?? 0);
}
const percent = (share: number): string => `${Number((100 * share).toPrecision(2))} %`;

/**
 * The doubt of a value that was given none: a part's by its marking, a tube's by its type, a reading's by its meter and never less than its last digit, of
 * anything else half of its last digit; nothing of what is exact by nature, and of a plain nothing. A tolerance of zero is said as `±0`.
 *
 * @param q the value with where it comes from
 * @param as what sort of value it is, and its dimension
 * @param said the text and the meter, where they are known
 * @returns the same value with its doubt, and in its source where that comes from; what has a doubt already as it is
 * @source IEC 60062 for parts; JCGM 100:2008 F.2.2.1 for the last digit; else common practice, no source
 */
export function withBareDoubt(
  q: Quantity,
  as: { readonly dimension: Dimension; readonly bare?: Bare | undefined },
  { text, meter }: BareSaid = {},
): Quantity {
  const kind = bareOf(as.dimension, as.bare);
  if (q.spread.shape !== "exact" || q.joint !== undefined || kind === "exact" || as.dimension === "sReading") return q;
  if (q.origin === "fitted" || q.origin === "computed") return q;
  const size = Math.abs(q.value);
  const digit = text === undefined ? digitOfValue(q.value, as.dimension) : lastDigitOf(text, as.dimension);
  // a plain nothing is nothing: none fitted, none seen
  if (size === 0 && (text === undefined || digit === 0)) return q;
  const half = size === 0 ? digit / 2 : Math.min(digit / 2, mostOfDigit * size);
  const from = doubtOf(kind, q.origin, size, half, meter);
  return { ...q, spread: from.spread, source: q.source === "" ? from.says : `${q.source}; ${from.says}` };
}

const [noDoubt, noTolerance] = bareSaid;
interface From {
  readonly spread: Spread;
  readonly says: string;
}
function doubtOf(kind: Bare, origin: Origin, size: number, half: number, meter: ReadWith | undefined): From {
  const byDigit: From = { spread: tolerance(half), says: `${noTolerance}: half of its last digit` };
  if (origin === "measured" && (kind === "part" || kind === "reading") && size > 0) {
    const share = meter?.share ?? meterUnknown;
    const u = Math.hypot(share * size, half / Math.sqrt(3));
    return {
      spread: { shape: "normal", u: Number(u.toPrecision(3)) },
      says: `${noDoubt}: ${percent(share)} of ${meter?.name ?? "a usual meter"}`,
    };
  }
  if (kind === "part" && origin !== "measured" && size > 0)
    return {
      spread: tolerance(unmarkedPart * size),
      says: `${noTolerance}: ${percent(unmarkedPart)}, as of a part without a tolerance band (IEC 60062)`,
    };
  if (kind === "tube" && size > 0)
    return {
      spread: { shape: "normal", u: tubeScatter * size },
      says: `${noDoubt}: ${percent(tubeScatter)}, as tubes of a type scatter`,
    };
  return byDigit;
}
