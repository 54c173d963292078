import { backSubstitute, householderInPlace, inverseOfNormal } from "../../numerics/linear";
import {
  chebyshevPoints,
  endsAndMiddle,
  lawThrough,
  minimaxTracking,
  type OscillatorLaw,
  type OscillatorParts,
  partsHz,
  partsOf,
  type TrackedBand,
} from "../../physics/tracking";

export const pointChoices = ["least worst error", "ends and middle", "Chebyshev"] as const;
export interface TrackingInputs {
  readonly readings: readonly { readonly dial: number; readonly received: number }[];
  readonly oscillator: "above" | "below";
  readonly points: (typeof pointChoices)[number];
  readonly low: number;
  readonly high: number;
  readonly intermediate: number;
  readonly gangLow: number;
  readonly gangHigh: number;
  readonly signalQ: number;
  readonly readingNoise: number;
  readonly coilDoubt: number;
  readonly trimmerDoubt: number;
  readonly padderDoubt: number;
}
export const bandOf = (x: TrackingInputs): TrackedBand => ({
  lowHz: x.low,
  highHz: x.high,
  intermediateHz: x.intermediate,
  oscillator: x.oscillator,
});

/** The signal circuit that the gang tunes over the band: inductance, and what is across it beside the gang. */
export function signalCircuit(x: TrackingInputs): { readonly henry: number; readonly trimmerF: number } {
  const ratio = (x.high / x.low) ** 2;
  const trimmerF = (x.gangHigh - ratio * x.gangLow) / (ratio - 1);
  return { trimmerF, henry: 1 / ((2 * Math.PI * x.low) ** 2 * (x.gangHigh + trimmerF)) };
}
/** The law as chosen; undefined where the oscillator would have to pass through nothing. */
export function lawOf(x: TrackingInputs): OscillatorLaw | undefined {
  const t = bandOf(x);
  if (x.points === "least worst error") return minimaxTracking(t)?.law;
  return lawThrough(t, x.points === "Chebyshev" ? chebyshevPoints(t) : endsAndMiddle(t));
}
export interface Tracked {
  readonly law: OscillatorLaw;
  readonly parts: OscillatorParts | undefined;
  readonly signal: { readonly henry: number; readonly trimmerF: number };
}
export function tracked(x: TrackingInputs): Tracked | undefined {
  const law = lawOf(x);
  if (!law) return undefined;
  const signal = signalCircuit(x);
  return { law, signal, parts: partsOf(law, signal.henry, signal.trimmerF) };
}
const gangAt = (s: Tracked["signal"], f: number): number => 1 / ((2 * Math.PI * f) ** 2 * s.henry) - s.trimmerF;
/** Oscillator's frequency where the dial says f, with its parts changed by these shares, Hz. */
export const changedHz = (t: Tracked, parts: OscillatorParts, f: number, coil: number, trimmer: number, padder: number): number =>
  partsHz(
    { henry: parts.henry * (1 + coil), trimmerF: parts.trimmerF * (1 + trimmer), padderF: parts.padderF * (1 + padder) },
    gangAt(t.signal, f),
  );

export interface Blamed {
  /** share by which each part is off, and one standard deviation of it */
  readonly coil: readonly [value: number, u: number];
  readonly trimmer: readonly [value: number, u: number];
  readonly padder: readonly [value: number, u: number];
  /** worst reading left unexplained, Hz */
  readonly leftHz: number;
}
/**
 * Which part of the oscillator circuit is off, from what the dial said and what was received there.
 *
 * @param x inputs, with the readings
 * @param t the circuit as it should be
 * @returns shares with their doubts; undefined without parts or readings
 * @source linear Bayesian least squares about the circuit, each part with what it may be off by beforehand; three rounds
 */
export function blame(x: TrackingInputs, t: Tracked): Blamed | undefined {
  const { parts } = t;
  if (!parts || x.readings.length === 0) return undefined;
  const sign = x.oscillator === "above" ? 1 : -1;
  const prior = [x.coilDoubt, x.trimmerDoubt, x.padderDoubt];
  let d: number[] = [0, 0, 0];
  let covariance: Float64Array | undefined;
  const receivedAt = (f: number, s: readonly number[]): number => changedHz(t, parts, f, s[0], s[1], s[2]) - sign * x.intermediate;
  const rows = 3 + x.readings.length;
  for (let round = 0; round < 4; round++) {
    // what is known beforehand stands as three rows above the readings
    const design = new Float64Array(rows * 3);
    const target = new Float64Array(rows);
    prior.forEach((p, i) => {
      design[i * 3 + i] = 1 / p;
      target[i] = -d[i] / p;
    });
    x.readings.forEach((r, n) => {
      const base = receivedAt(r.dial, d);
      target[3 + n] = (r.received - base) / x.readingNoise;
      for (let i = 0; i < 3; i++) {
        const more = d.map((v, k) => (k === i ? v + 1e-4 : v));
        design[(3 + n) * 3 + i] = (receivedAt(r.dial, more) - base) / 1e-4 / x.readingNoise;
      }
    });
    householderInPlace(design, target, rows, 3);
    const step = backSubstitute(design, target, 3);
    d = d.map((v, i) => v + step[i]);
    covariance = inverseOfNormal(design, 3);
  }
  if (!covariance) return undefined;
  const spread = covariance;
  const of = (i: number): readonly [number, number] => [d[i], Math.sqrt(spread[4 * i])];
  return {
    coil: of(0),
    trimmer: of(1),
    padder: of(2),
    leftHz: x.readings.reduce((w, r) => Math.max(w, Math.abs(r.received - receivedAt(r.dial, d))), 0),
  };
}
