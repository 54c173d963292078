/**
 * Two like circuits tuned to one frequency and coupled: a = k Q. |H|^2 goes as 1/((1 + a^2 - x^2)^2 + 4 x^2), x = 2 Q df/f0.
 * Two windings that are off each other by d look just like more coupling: a^2 and (Q d/f0)^2 add up.
 */
import { needPositive } from "./domain";

/** Distance of the two humps, Hz; 0 up to critical coupling. Source: peaks at x = +-sqrt(a^2 - 1). */
export const humpSpacingHz = (a: number, qRatio: number, f0Hz: number): number => (a <= 1 ? 0 : (f0Hz * Math.sqrt(a * a - 1)) / qRatio);
/** How far the middle is below the humps, dB; 0 up to critical coupling. Source: 20 log10((1 + a^2)/(2 a)). */
export const valleyDb = (a: number): number => (a <= 1 ? 0 : 20 * Math.log10((1 + a * a) / (2 * a)));

/**
 * Coupling and Q of one can alone from its double hump.
 *
 * @param spacingHz distance of the humps, Hz, above 0
 * @param valley depth of the middle below the humps, dB, above 0
 * @param f0Hz middle, Hz, above 0
 * @returns a, loaded Q, and k = a/Q
 * @throws {PhysicsDomainError} when an argument is not above 0
 * @source the two formulas above, solved: a = v + sqrt(v^2 - 1) with v the valley as a ratio of volts
 */
export function pairFromHumps(
  spacingHz: number,
  valley: number,
  f0Hz: number,
): { readonly a: number; readonly q: number; readonly k: number } {
  needPositive("double hump", { spacingHz, valley, f0Hz });
  const v = 10 ** (valley / 20);
  const a = v + Math.sqrt(v * v - 1);
  const q = (f0Hz * Math.sqrt(a * a - 1)) / spacingHz;
  return { a, q, k: a / q };
}
/**
 * Width between the outer skirts at a level below the highest point.
 *
 * @param a coupling over critical
 * @param qRatio loaded Q of each circuit
 * @param f0Hz middle, Hz
 * @param belowDb level below the highest point, dB, positive
 * @returns Hz
 * @source the same response, solved for x
 */
export function pairWidthHz(a: number, qRatio: number, f0Hz: number, belowDb: number): number {
  const level = 10 ** (belowDb / 10);
  const s = a * a;
  // below critical coupling the highest point is the middle
  const top = a > 1 ? 4 * s : (1 + s) ** 2;
  const x2 = s - 1 + Math.sqrt(Math.max(0, (s - 1) ** 2 - (1 + s) ** 2 + top * level));
  return (f0Hz / qRatio) * Math.sqrt(Math.max(0, x2));
}
/** Resistor across a winding that brings its Q to a part of what it is, ohm. Source: conductances add up. */
export const loadingOhm = (qRatio: number, capacitanceF: number, f0Hz: number, part: number): number =>
  qRatio / (2 * Math.PI * f0Hz * capacitanceF) / (1 / part - 1);
/** Fastest sweep that a resonance of a width still follows, Hz/s. Source: width squared over 4, common practice of slow sweeps, no single source. */
export const fastestSweepHzPerS = (widthHz: number): number => (widthHz * widthHz) / 4;
