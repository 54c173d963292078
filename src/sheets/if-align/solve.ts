import { fastestSweepHzPerS, loadingOhm, pairFromHumps, pairWidthHz } from "../../physics/coupled-pair";
import { type CanModel, type StripModel, StripResponse } from "../../physics/if-strip";
import { crossingHz, peakOf } from "../../physics/passband";

export const feels = [
  "not tried",
  "a clear peak",
  "tunes broadly",
  "no peak",
  "peak at the stop",
  "two peaks a turn or two apart",
] as const;
export interface AlignInputs {
  readonly strip: StripModel;
  readonly oscillator: "above" | "below";
  readonly narrowest: "none" | "single crystal" | "ceramic or mechanical filter";
  readonly humpFrom: "one can alone" | "the whole strip";
  readonly feel: (typeof feels)[number];
  readonly humpSpacing: number;
  readonly humpValley: number;
  readonly humpDifference: number;
  readonly canCapacitance: number;
  readonly filterCentre: number;
  readonly crystalWidth: number;
}
export type AlignNames =
  | "centreToUse"
  | "dialShift"
  | "mostOver"
  | "pairA"
  | "pairQ"
  | "pairK"
  | "pairWidth"
  | "loading"
  | "sweepWidth"
  | "sweepRate"
  | "lostByOneKhz";
/** Q of a winding with what tube or diode puts across it. Source: conductances add up. */
const loaded = (q: number, c: number, ohm: number, w0: number): number => 1 / (1 / q + 1 / (w0 * c * ohm));
/**
 * k Q of a can as its tubes load it: over 1 it is overcoupled.
 *
 * @source definition of critical coupling, k sqrt(Q1 Q2) = 1, with the loads as parallel resistances
 */
export function couplingOf(can: CanModel, ifHz: number): { readonly a: number; readonly q1: number; readonly q2: number } {
  const w0 = 2 * Math.PI * ifHz;
  const q1 = loaded(can.primaryQ, can.primaryCapacitance + can.outputCapacitance, can.plateResistance, w0);
  const q2 = loaded(can.secondaryQ, can.secondaryCapacitance + can.inputCapacitance, can.loadResistance, w0);
  return { a: can.coupling * Math.sqrt(q1 * q2), q1, q2 };
}
/** Part of a winding's Q that takes a pair under critical: a quarter, or less where the coupling is over twice critical. Source: a falls with the root. */
export const loadPart = (a: number): number => Math.min(0.25, (0.95 / a) ** 2);
/** Resistor across the primary that takes an overcoupled can under critical. */
export const loadFor = (can: CanModel, ifHz: number): number =>
  loadingOhm(couplingOf(can, ifHz).q1, can.primaryCapacitance + can.outputCapacitance, ifHz, loadPart(couplingOf(can, ifHz).a));

const r = new StripResponse();
const trial = (strip: StripModel, can: number, winding: "primaryOffset" | "secondaryOffset", offsetHz: number): StripModel => ({
  ...strip,
  cans: strip.cans.map((c, i) => (i === can ? { ...c, [winding]: offsetHz } : c)),
});
/**
 * Output at the IF with one winding of the first can off by so much, as power.
 *
 * @source the strip's nodal solution, physics/if-strip.ts
 */
export function outputAt(strip: StripModel, winding: "primaryOffset" | "secondaryOffset", offsetHz: number): number {
  r.load(trial(strip, 0, winding, offsetHz));
  return r.at(strip.intermediateFrequency);
}
/**
 * Width at -6 dB of the whole strip, Hz.
 *
 * @source bracketing and halving on the exact response, physics/passband.ts
 */
export function width6Hz(strip: StripModel): number {
  r.load(strip);
  const peak = peakOf(r, [strip.intermediateFrequency]);
  return crossingHz(r, peak, 6, 1) - crossingHz(r, peak, 6, -1);
}
/** Width of the narrowest thing that a sweep passes, Hz. */
export const narrowestHz = (x: AlignInputs, stripHz: number): number => (x.narrowest === "single crystal" ? x.crystalWidth : stripHz);
export { fastestSweepHzPerS, loadingOhm, pairFromHumps, pairWidthHz };
