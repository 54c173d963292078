import { gangOverTrimmer, type OscillatorParts, partsHz, partsOf } from "../../physics/oscillator-parts";
import {
  endsAndMiddle,
  lawThrough,
  lawThroughTwo,
  minimaxTracking,
  type OscillatorLaw,
  signalHzAt,
  type TrackedBand,
  threeChebyshevPoints,
  twoChebyshevPoints,
  wantedHz,
} from "../../physics/tracking";
import type { Asked } from "./ask";

/** What of the inputs tells the circuit. */
export type Design = Pick<
  Asked,
  "low" | "high" | "intermediate" | "oscillator" | "gangLow" | "gangHigh" | "padderLayout" | "points" | "exactAt" | "dialDrawnTo"
>;
/**
 * The band as its gang sees it.
 *
 * @param x ends of the band and IF, Hz, side of the oscillator
 * @returns the same under the names of physics
 * @source house frame
 */
export const bandOf = (x: Pick<Asked, "low" | "high" | "intermediate" | "oscillator">): TrackedBand => ({
  lowHz: x.low,
  highHz: x.high,
  intermediateHz: x.intermediate,
  oscillator: x.oscillator,
});
/**
 * Side of the oscillator as a sign.
 *
 * @param x side of the oscillator
 * @returns 1 above the signal, -1 below
 * @source house frame
 */
export const sideOf = (x: Pick<Asked, "oscillator">): 1 | -1 => (x.oscillator === "above" ? 1 : -1);

/** The signal circuit that the gang tunes over the band: inductance, and what is across it beside the gang. */
function signalCircuit(x: Design): { readonly henry: number; readonly trimmerF: number } {
  const ratio = (x.high / x.low) ** 2;
  const trimmerF = (x.gangHigh - ratio * x.gangLow) / (ratio - 1);
  return { trimmerF, henry: 1 / ((2 * Math.PI * x.low) ** 2 * (x.gangHigh + trimmerF)) };
}
/** Where the circuit is exact, Hz: three places with a padder, two without; one place less than peaks of the error. */
const exactAt = (x: Design): readonly number[] => {
  const t = bandOf(x);
  if (x.points === "own") return x.exactAt.map((r) => r.at);
  if (x.padderLayout === "no padder") return x.points === "Chebyshev" ? twoChebyshevPoints(t) : [x.low, x.high];
  return x.points === "Chebyshev" ? threeChebyshevPoints(t) : endsAndMiddle(t);
};
/**
 * Whether two sets of inputs ask for one law: it does not feel the gang.
 *
 * @param x inputs
 * @param y inputs with the same choices and exact points
 * @returns true where band and IF are the same
 * @source the law's own arguments
 */
export const sameLaw = (x: Design, y: Design): boolean => x.low === y.low && x.high === y.high && x.intermediate === y.intermediate;
/**
 * The law as chosen.
 *
 * @param x inputs, SI
 * @returns the law; undefined where the oscillator would have to pass through nothing
 * @source physics/tracking.ts
 */
export function lawOf(x: Design): OscillatorLaw | undefined {
  const t = bandOf(x);
  const padder = x.padderLayout !== "no padder";
  if (x.points === "least worst error") return minimaxTracking(t, padder)?.law;
  const at = exactAt(x);
  return padder ? lawThrough(t, [at[0], at[1], at[2]]) : lawThroughTwo(t, [at[0], at[1]]);
}
/** The circuit as designed: law, parts, and the gang's capacitance at a mark of the dial. */
export interface Tracked {
  readonly law: OscillatorLaw;
  readonly parts: OscillatorParts | undefined;
  readonly signal: { readonly henry: number; readonly trimmerF: number };
  /** gang's capacitance where the signal circuit peaks on so many Hz, F */
  readonly gangAtF: (peakHz: number) => number;
  /** gang's capacitance where the dial says so many Hz, F */
  readonly gangF: (dialHz: number) => number;
  readonly gangEnds: readonly [least: number, most: number];
}
/**
 * Where the signal circuit peaks at a mark of the dial, all parts right: it does not feel the gang.
 *
 * A dial that is drawn to the oscillator says f where the oscillator, all parts right, runs on f and an IF: then it is right all over. One that
 * is drawn to the signal circuit says f where that circuit peaks on f: then it is right at the exact points alone.
 *
 * @param x inputs, SI
 * @param law its law
 * @returns Hz of a mark in Hz
 * @source identity: the gang's place is told by one circuit or by the other
 */
export function peakAtMark(x: Design, law: OscillatorLaw): (dialHz: number) => number {
  const band = bandOf(x);
  return x.dialDrawnTo === "oscillator" ? (dial) => signalHzAt(law, wantedHz(band, dial)) : (dial) => dial;
}
/**
 * The circuit as designed.
 *
 * @param x inputs, SI
 * @param law its law, where that is known already
 * @returns the circuit; undefined where the oscillator can't follow
 * @source the signal circuit's resonance, solved for the gang
 */
export function tracked(x: Design, law = lawOf(x)): Tracked | undefined {
  if (!law) return undefined;
  const signal = signalCircuit(x);
  const k = 1 / (4 * Math.PI * Math.PI * signal.henry);
  const gangAtF = (hz: number): number => k / (hz * hz) - signal.trimmerF;
  const peak = peakAtMark(x, law);
  const parts = partsOf(law, signal.henry, signal.trimmerF, x.padderLayout);
  return { law, signal, parts, gangAtF, gangF: (dial) => gangAtF(peak(dial)), gangEnds: [x.gangLow, x.gangHigh] };
}

/** By how much the parts differ from the design. */
export interface Off {
  /** shares */
  readonly coil: number;
  readonly trimmer: number;
  readonly padder: number;
  /** of the gang's own capacitance, F: alike at every place, rising with the turn, and bent in the middle */
  readonly gangF: readonly [level: number, tilt: number, bend: number];
}
export const allRight: Off = { coil: 0, trimmer: 0, padder: 0, gangF: [0, 0, 0] };
/** A place of the gang: what it has there, F, and how far it is turned in, -1 to 1. */
export interface Place {
  readonly gangF: number;
  readonly turn: number;
}
/**
 * The place of the gang with so much capacitance, turned as a gang of plates between a straight line of capacitance and one of frequency is.
 *
 * @param t the circuit
 * @param gangF what the gang has there, F
 * @returns the place
 * @source common practice, no source
 */
export function placeOf(t: Tracked, gangF: number): Place {
  const [least, most] = t.gangEnds;
  return { gangF, turn: 2 * Math.sqrt(Math.min(1, Math.max(0, (gangF - least) / (most - least)))) - 1 };
}
/** What the gang has too much at a place: three smooth shapes over its turn, F. */
const gangMoreF = ({ turn }: Place, [level, tilt, bend]: Off["gangF"]): number => level + tilt * turn + bend * (1.5 * turn * turn - 0.5);
/**
 * Oscillator's frequency at a place of the gang, its parts off by so much.
 *
 * @param parts as designed
 * @param at the place
 * @param off shares, and F of the gang
 * @returns Hz
 * @source physics/oscillator-parts.ts
 */
export const runsHz = (parts: OscillatorParts, at: Place, off: Off): number =>
  partsHz(
    {
      layout: parts.layout,
      henry: parts.henry * (1 + off.coil),
      trimmerF: parts.trimmerF * (1 + off.trimmer),
      padderF: parts.padderF * (1 + off.padder),
    },
    at.gangF + gangMoreF(at, off.gangF),
  );
/**
 * Oscillator's frequency where the dial says so many Hz, its parts off by so much.
 *
 * @param t the circuit
 * @param parts as designed
 * @param dialHz mark of the dial, Hz
 * @param off shares, and F of the gang
 * @returns Hz
 * @source physics/oscillator-parts.ts
 */
export const oscillatorHz = (t: Tracked, parts: OscillatorParts, dialHz: number, off: Off): number =>
  runsHz(parts, placeOf(t, t.gangF(dialHz)), off);
/**
 * What is too much across the gang in all, trimmer and the gang's own, as the trimmer has to make it good at the high end.
 *
 * @param x least capacitance of the gang, F
 * @param t the circuit
 * @param parts as designed
 * @param off shares, and F of the gang
 * @returns F
 * @source derivative of the circuit
 */
export const acrossF = (x: Pick<Asked, "gangLow">, t: Tracked, parts: OscillatorParts, off: Off): number =>
  parts.trimmerF * off.trimmer + gangMoreF(placeOf(t, x.gangLow), off.gangF) * gangOverTrimmer(parts, x.gangLow);
