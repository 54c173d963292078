import { circuitsRejectionDb, halfIfHz, imageHz } from "../../physics/images";
import type { Asked } from "./ask";

/** Second place on the dial for a signal, Hz; undefined where there is none. */
export const secondAt = (x: Asked): number | undefined => {
  const at = x.signal + (x.oscillator === "above" ? -2 : 2) * x.intermediate;
  return at > 0 ? at : undefined;
};
/** What the circuits leave, no further down than what finds a way round them. */
const limited = (db: number, strays: number): number => -10 * Math.log10(10 ** (-db / 10) + 10 ** (-strays / 10));
/** The other frequency of a way, Hz. */
export const atWay = (x: Asked, signal: number, way: number): number =>
  way === 0
    ? imageHz(signal, x.intermediate, x.oscillator)
    : way === 1
      ? x.intermediate
      : Math.abs(halfIfHz(signal, x.intermediate, x.oscillator));
/** What the circuits alone leave, dB; NaN where the oscillator would have to run on nothing or less. */
export const alone = (x: Asked, signal: number, way: number, circuits = x.circuits): number =>
  x.oscillator === "below" && signal <= x.intermediate
    ? Number.NaN
    : circuitsRejectionDb(circuits, x.signalQ, signal, Math.max(1, atWay(x, signal, way)));
/** What circuits and ways round them leave together, dB. */
export const leaves = (x: Asked, signal: number, way: number, circuits = x.circuits): number =>
  limited(alone(x, signal, way, circuits), x.strays);

/** A circuit that is worth less than this at a place can't be told from a loss of Q there, dB. Common practice, no source. */
const worthDb = 8;
/**
 * Whether a rejection is what the circuits leave with one of them fewer.
 *
 * @param x inputs
 * @param r what was read
 * @returns true where one circuit fewer comes nearer to it than all of them, or two fewer, do
 * @source the universal resonance curve, counted
 */
export function isOneFewer(x: Asked, r: Asked["readings"][number]): boolean {
  if (r.way === 2 || x.circuits < 1) return false;
  const off = (fewer: number): number => Math.abs(r.rejection - leaves(x, r.signal, r.way, Math.max(0, x.circuits - fewer)));
  const worth = leaves(x, r.signal, r.way) - leaves(x, r.signal, r.way, x.circuits - 1);
  return worth > worthDb && off(1) < off(0) && (x.circuits < 2 || off(1) < off(2));
}
