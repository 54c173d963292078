/**
 * A crystal-controlled converter before a receiver: which signal comes out where on the receiver's dial, and what else does. All frequencies Hz.
 * Wanted: dial = |signal - crystal|. Source: |m crystal +- n signal| is what a mixer makes of two frequencies; textbooks on mixing.
 */
import type { OscillatorSide } from "./images";

/** A wanted band behind a crystal. `side` is the crystal's, seen from the band. */
export interface ConverterPlan {
  readonly crystalHz: number;
  readonly side: OscillatorSide;
  readonly lowHz: number;
  readonly highHz: number;
}
/** Where a signal comes out on the receiver, Hz. */
export const dialHz = (p: Pick<ConverterPlan, "crystalHz" | "side">, signalHz: number): number =>
  p.side === "below" ? signalHz - p.crystalHz : p.crystalHz - signalHz;
/** Signal that a place of the receiver's dial stands for, Hz. */
export const signalAtDialHz = (p: Pick<ConverterPlan, "crystalHz" | "side">, dial: number): number =>
  p.side === "below" ? p.crystalHz + dial : p.crystalHz - dial;
/**
 * What the receiver tunes over for the wanted band.
 *
 * @param p the plan
 * @returns both ends on the receiver's dial, Hz, ascending
 * @source dial = |signal - crystal| at both ends
 */
export function tunedOver(p: ConverterPlan): readonly [low: number, high: number] {
  const [a, b] = [dialHz(p, p.lowHz), dialHz(p, p.highHz)];
  return a < b ? [a, b] : [b, a];
}

/** A range of signals that comes out somewhere on the tuned range: n signal = |m crystal + way dial|. */
export interface Response {
  /** harmonic of the crystal, and of the signal */
  readonly m: number;
  readonly n: number;
  readonly way: 1 | -1;
  readonly lowHz: number;
  readonly highHz: number;
  /** signal in the wanted band that is heard through this at its own place too, so that it whistles there */
  readonly crossHz?: number;
}
/** Signals that come out on a tuned range so: their ends, Hz. */
const reachOf = (p: ConverterPlan, d: readonly [number, number], m: number, n: number, way: 1 | -1): readonly [number, number] => {
  const a = m * p.crystalHz + way * d[0];
  const b = m * p.crystalHz + way * d[1];
  const [x, y] = [Math.abs(a) / n, Math.abs(b) / n];
  return [a * b < 0 ? 0 : Math.min(x, y), Math.max(x, y)];
};
/** Wanted signal that is heard so at its own place too. */
function crossingHz(p: ConverterPlan, m: number, n: number, way: 1 | -1): number | undefined {
  // its own place: n f = s (m fx + way d) with d = u (f - fx), u = 1 for a crystal below
  const u = p.side === "below" ? 1 : -1;
  let crossHz: number | undefined;
  for (let s = 1; s >= -1; s -= 2) {
    const slope = n - s * way * u;
    if (slope === 0) continue;
    const f = (s * p.crystalHz * (m - way * u)) / slope;
    if (f >= p.lowHz - 1e-6 && f <= p.highHz + 1e-6) crossHz = f;
  }
  return crossHz;
}
const responseOf = (p: ConverterPlan, m: number, n: number, way: 1 | -1): Response => {
  const [lowHz, highHz] = reachOf(p, tunedOver(p), m, n, way);
  const crossHz = crossingHz(p, m, n, way);
  return { m, n, way, lowHz, highHz, ...(crossHz === undefined ? {} : { crossHz }) };
};
const bothWays = [1, -1] as const;
const oneWay = [1] as const;
/** The image of the whole band. */
export const imageOf = (p: ConverterPlan): Response => responseOf(p, 1, 1, p.side === "below" ? -1 : 1);
/** Signals whose second harmonic, with the crystal's, comes out on the tuned range. */
export const halfDialOf = (p: ConverterPlan): Response => responseOf(p, 2, 2, p.side === "below" ? 1 : -1);

/**
 * Every other way in: harmonics m of the crystal and n of a signal, up to an order, for signals that reach into a range.
 *
 * @param p the plan
 * @param order largest m + n, 2 to 15
 * @param fromHz signals of interest from
 * @param toHz to
 * @returns responses but the wanted one, image, feed-through and those that a lower order of the same ratio has already
 * @source |m crystal +- n signal| = dial, solved for the signal
 */
export function responsesOf(p: ConverterPlan, order: number, fromHz: number, toHz: number): Response[] {
  const out: Response[] = [];
  const over = tunedOver(p);
  for (let n = 1; n <= order; n++)
    for (let m = 0; m + n <= order; m++)
      for (const way of m === 0 ? oneWay : bothWays) {
        if (m <= 1 && n === 1) continue;
        const [lowHz, highHz] = reachOf(p, over, m, n, way);
        if (highHz >= fromHz && lowHz <= toHz) out.push(responseOf(p, m, n, way));
      }
  return out;
}
/**
 * Products that two frequencies make up to an order: the same whichever is called which.
 *
 * @param aHz one frequency, Hz
 * @param bHz the other, Hz
 * @param order largest m + n
 * @returns Hz, ascending
 * @source |m a +- n b|
 */
export function productsHz(aHz: number, bHz: number, order: number): number[] {
  const out: number[] = [];
  for (let m = 0; m <= order; m++)
    for (let n = 0; m + n <= order; n++)
      if (m + n > 0) {
        out.push(m * aHz + n * bHz);
        if (m > 0 && n > 0) out.push(Math.abs(m * aHz - n * bHz));
      }
  return out.sort((x, y) => x - y);
}

/** The receiver behind the converter. */
export interface ReceiverBehind {
  readonly ifHz: number;
  readonly oscillator: OscillatorSide;
}
export const birdieKinds = ["IF harmonic", "receiver's oscillator", "crystal in the band", "crystal on the dial"] as const;
/** A steady note without any signal. */
export interface Birdie {
  readonly kind: (typeof birdieKinds)[number];
  readonly dialHz: number;
  /** harmonic of what makes it, and of the crystal where that takes part */
  readonly p: number;
  readonly q: number;
}
/**
 * Steady notes on the tuned range: harmonics of the receiver's IF and of the crystal's fundamental, and of the receiver's oscillator against the crystal.
 *
 * @param p the plan
 * @param r the receiver
 * @param overtone overtone that the crystal works on, 1 for its fundamental
 * @param order largest sum of the harmonics of receiver's oscillator and crystal; largest harmonic of the crystal alone. The IF's are all listed
 * @returns birdies, by their place on the dial
 * @source p (dial +- IF) - q crystal = +- dial, solved for the dial; harmonics of IF and crystal by themselves
 */
export function birdiesOf(p: ConverterPlan, r: ReceiverBehind, overtone: number, order: number): Birdie[] {
  const [low, high] = tunedOver(p);
  const out: Birdie[] = [];
  const put = (b: Birdie): void => {
    if (b.dialHz >= low - 1e-3 && b.dialHz <= high + 1e-3 && !out.some((o) => o.kind === b.kind && Math.abs(o.dialHz - b.dialHz) < 1))
      out.push(b);
  };
  for (let k = Math.ceil(low / r.ifHz); k * r.ifHz <= high; k++) put({ kind: "IF harmonic", dialHz: k * r.ifHz, p: k, q: 0 });
  const aside = r.oscillator === "above" ? r.ifHz : -r.ifHz;
  for (let h = 1; h <= order; h++)
    for (let q = 0; h + q <= order; q++)
      for (const s of [1, -1] as const) {
        // h (d + aside) - q fx = s d
        if (h === s) continue;
        const d = (q * p.crystalHz - h * aside) / (h - s);
        if (d > 0) put({ kind: "receiver's oscillator", dialHz: d, p: h, q });
      }
  if (overtone > 1) {
    const fundamental = p.crystalHz / overtone;
    for (let k = 1; k <= order; k++) {
      put({ kind: "crystal on the dial", dialHz: k * fundamental, p: k, q: 0 });
      if (k !== overtone) put({ kind: "crystal in the band", dialHz: dialHz(p, k * fundamental), p: k, q: 0 });
    }
  } else
    for (let k = 2; k <= order; k++) {
      put({ kind: "crystal on the dial", dialHz: k * p.crystalHz, p: k, q: 0 });
      put({ kind: "crystal in the band", dialHz: dialHz(p, k * p.crystalHz), p: k, q: 0 });
    }
  return out.sort((a, b) => a.dialHz - b.dialHz);
}

/** Highest frequency of an ordinary crystal on its fundamental, and on its third overtone, Hz: common practice, no source. */
const usualFundamentalHz = 20e6;
const usualThirdHz = 60e6;
/** Overtone that a crystal of this frequency is usually made for. Source: common practice, no source. */
export const usualOvertone = (hz: number): 1 | 3 | 5 => (hz <= usualFundamentalHz ? 1 : hz <= usualThirdHz ? 3 : 5);
