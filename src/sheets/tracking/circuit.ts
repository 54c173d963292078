import { gangOverTrimmer, type OscillatorParts, partsHz, partsOf } from "../../physics/oscillator-parts";
import {
  chebyshevPoints,
  endsAndMiddle,
  lawThrough,
  lawThroughTwo,
  minimaxTracking,
  type OscillatorLaw,
  signalHzAt,
  type TrackedBand,
  wantedHz,
} from "../../physics/tracking";
import type { TrackingInputs } from "./inputs";

export const bandOf = (x: TrackingInputs): TrackedBand => ({
  lowHz: x.low,
  highHz: x.high,
  intermediateHz: x.intermediate,
  oscillator: x.oscillator,
});
export const sideOf = (x: Pick<TrackingInputs, "oscillator">): 1 | -1 => (x.oscillator === "above" ? 1 : -1);

/** The signal circuit that the gang tunes over the band: inductance, and what is across it beside the gang. */
export function signalCircuit(x: TrackingInputs): { readonly henry: number; readonly trimmerF: number } {
  const ratio = (x.high / x.low) ** 2;
  const trimmerF = (x.gangHigh - ratio * x.gangLow) / (ratio - 1);
  return { trimmerF, henry: 1 / ((2 * Math.PI * x.low) ** 2 * (x.gangHigh + trimmerF)) };
}
/** Where the circuit is exact, Hz: three places with a padder, two without; one place less than peaks of the error. */
const exactAt = (x: TrackingInputs): readonly number[] => {
  const t = bandOf(x);
  if (x.points === "own") return x.exactAt.map((r) => r.at);
  if (x.padderLayout === "no padder") return x.points === "Chebyshev" ? chebyshevPoints(t, 2) : [x.low, x.high];
  return x.points === "Chebyshev" ? chebyshevPoints(t) : endsAndMiddle(t);
};
/** Whether two sets of inputs ask for one law: it does not feel the gang. */
export const sameLaw = (x: TrackingInputs, y: TrackingInputs): boolean =>
  x.low === y.low && x.high === y.high && x.intermediate === y.intermediate;
/** The law as chosen; undefined where the oscillator would have to pass through nothing. */
export function lawOf(x: TrackingInputs): OscillatorLaw | undefined {
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
  /** gang's capacitance where the dial says so many Hz, F */
  readonly gangF: (dialHz: number) => number;
  readonly gangEnds: readonly [least: number, most: number];
}
/**
 * The circuit as designed.
 *
 * A dial that is drawn to the oscillator says f where the oscillator, all parts right, runs on f and an IF: then it is right all over. One that
 * is drawn to the signal circuit says f where that circuit peaks on f: then it is right at the exact points alone.
 *
 * @param x inputs, SI
 * @param law its law, where that is known already
 * @returns the circuit; undefined where the oscillator can't follow
 * @source identity: the gang's place is told by one circuit or by the other
 */
export function tracked(x: TrackingInputs, law = lawOf(x)): Tracked | undefined {
  if (!law) return undefined;
  const signal = signalCircuit(x);
  const peakF = (hz: number): number => 1 / ((2 * Math.PI * hz) ** 2 * signal.henry) - signal.trimmerF;
  const band = bandOf(x);
  const gangF = x.dialDrawnTo === "oscillator" ? (dial: number) => peakF(signalHzAt(law, wantedHz(band, dial))) : peakF;
  const parts = partsOf(law, signal.henry, signal.trimmerF, x.padderLayout);
  return { law, signal, parts, gangF, gangEnds: [x.gangLow, x.gangHigh] };
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
/** How far the gang is turned in, 0 to 1, as a gang of plates between a straight line of capacitance and one of frequency has it. Common practice, no source. */
const turnOf = (t: Tracked, gangF: number): number =>
  Math.sqrt(Math.min(1, Math.max(0, (gangF - t.gangEnds[0]) / (t.gangEnds[1] - t.gangEnds[0]))));
/** What the gang has too much where it should have so many farads: three smooth shapes over its turn. */
const gangMoreF = (t: Tracked, gangF: number, [level, tilt, bend]: Off["gangF"]): number => {
  const s = 2 * turnOf(t, gangF) - 1;
  return level + tilt * s + bend * (1.5 * s * s - 0.5);
};
/** Oscillator's frequency where the dial says f, with its parts off by so much, Hz. */
export const oscillatorHz = (t: Tracked, parts: OscillatorParts, dialHz: number, off: Off): number => {
  const gangF = t.gangF(dialHz);
  return partsHz(
    {
      layout: parts.layout,
      henry: parts.henry * (1 + off.coil),
      trimmerF: parts.trimmerF * (1 + off.trimmer),
      padderF: parts.padderF * (1 + off.padder),
    },
    gangF + gangMoreF(t, gangF, off.gangF),
  );
};
/** What is too much across the gang in all, trimmer and the gang's own, as the trimmer has to make it good at the high end, F. */
export const acrossF = (x: TrackingInputs, t: Tracked, parts: OscillatorParts, off: Off): number =>
  parts.trimmerF * off.trimmer + gangMoreF(t, x.gangLow, off.gangF) * gangOverTrimmer(parts, x.gangLow);
