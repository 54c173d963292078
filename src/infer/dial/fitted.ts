import { smoothBasis, smoothSlope, smoothTerms, smoothValue } from "../../numerics/smooth-basis";
import { type Conversion, signalHz } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { dialTerms, leverageHz, oscillatorAtHz, placeOf, type Scaling } from "./scaling";

/** One set of hyperparameters with its posterior, whitened: coefficients are `mean` + `factor`^-T xi, times `size`. */
export interface Part {
  readonly weight: number;
  readonly length: number;
  /** standard deviation of the residual, in z */
  readonly amplitude: number;
  readonly noise: number;
  readonly size: Float64Array;
  readonly mean: Float64Array;
  readonly factor: Float64Array;
}
export interface DialFit {
  readonly points: readonly DialPoint[];
  readonly conversion: Conversion;
  /** lowest and highest reading of the points: the fit says nothing beyond a little more */
  readonly low: number;
  readonly high: number;
  /** readings between which it speaks: a twentieth of the points' span beyond them, or the scale where it leans on what is known of that */
  readonly reach: readonly [number, number];
  /** whether it leans on what was expected of the dial beforehand: few beats, a wide law */
  readonly leans: boolean;
  /** side that most points were approached from: readings are meant so unless said otherwise */
  readonly side: -1 | 0 | 1;
  readonly parts: readonly Part[];
  /** mean coefficients over the parts */
  readonly mean: Float64Array;
  /** upper R of their covariance RtR over the parts, row-major */
  readonly root: Float64Array;
  /** reading noise, divisions: mean over the parts */
  readonly readingNoise: number;
  readonly scaling: Scaling;
}
/**
 * The law's own uncertainty is widened by this, so that on 19 dials of 20 the 95 % interval holds over at least 88 % of the scale: errors along one
 * scale go together, and an interval that is right on the average holds over much less of the worst dial. Measured on invented
 * dials (docs/proof.md); the chance of passing an edge needs no widening there.
 */
export const dialWidening = 1.35;
/** The same where the law leans on expectations: those are wide already. */
const leaningWidening = 1.2;
/**
 * By how much the law's own uncertainty is widened.
 *
 * @param fit the fit
 * @returns factor
 * @source measured on invented dials (docs/proof.md)
 */
export const wideningOf = (fit: DialFit): number => (fit.leans ? leaningWidening : dialWidening);

/**
 * Readings between which the fit speaks.
 *
 * @param fit the fit
 * @returns divisions, the lower first
 * @source the fit
 */
export const reach = (fit: DialFit): readonly [number, number] => fit.reach;

/**
 * dz/d(reading) of the mean law.
 *
 * @param fit the fit
 * @param reading scale, divisions
 * @returns z a division
 * @source derivative of the fitted polynomial and sines
 */
export const slopeInZ = (fit: DialFit, reading: number): number => smoothSlope(placeOf(reading, fit.scaling), fit.mean) / fit.scaling.half;
/**
 * Where a law of the fit's own frame is at a reading: the smooth law, and half the backlash towards the side it was turned from.
 *
 * @param fit the fit
 * @param coefficients `dialTerms` of them
 * @param reading scale, divisions
 * @param approach 1 turning up, -1 turning down, 0 midway
 * @returns z
 * @source linear model: polynomial, sines and backlash
 */
export function zAt(fit: DialFit, coefficients: Float64Array, reading: number, approach: number): number {
  const z = smoothValue(placeOf(reading, fit.scaling), coefficients);
  if (approach === 0) return z;
  return z - 0.5 * approach * slopeInZ(fit, reading) * (coefficients[smoothTerms] + fit.scaling.backlash);
}
/**
 * Signal frequency at a z of the fit.
 *
 * @param z coordinate of the law
 * @param fit the fit
 * @returns frequency, Hz
 * @source the oscillator's frequency less the IF, or with it
 */
export const hzOf = (z: number, fit: DialFit): number => signalHz(oscillatorAtHz(z, fit.scaling), fit.conversion);
/**
 * Frequency that the dial stands at, without its doubt.
 *
 * @param fit the fit
 * @param reading scale, divisions
 * @param approach side it was turned from; the fit's own side where it is not said
 * @returns frequency, Hz
 * @source the fit's mean, carried to frequency
 */
export const hzAt = (fit: DialFit, reading: number, approach: number = fit.side): number =>
  hzOf(zAt(fit, fit.mean, reading, approach), fit);

export interface DialAt {
  readonly hz: number;
  /** standard uncertainty of the law there, Hz; a setting adds its own reading noise */
  readonly uHz: number;
}
/**
 * What the dial stands at.
 *
 * @param fit the fit
 * @param reading scale, divisions
 * @param approach side it was turned from; the fit's own side where it is not said
 * @returns frequency and standard uncertainty, Hz
 * @source the fit's mean and variance, carried to frequency to first order
 */
export function dialAt(fit: DialFit, reading: number, approach: number = fit.side): DialAt {
  const row = lawRow(fit, reading, approach);
  let variance = 0;
  for (let i = 0; i < dialTerms; i++) {
    let s = 0;
    for (let j = i; j < dialTerms; j++) s += fit.root[i * dialTerms + j] * row[j];
    variance += s * s;
  }
  const z = zAt(fit, fit.mean, reading, approach);
  return { hz: hzOf(z, fit), uHz: Math.abs(leverageHz(z, fit.scaling)) * Math.sqrt(variance) };
}
/**
 * How z at a reading hangs on each coefficient of the law.
 *
 * @param fit the fit
 * @param reading scale, divisions
 * @param approach side it was turned from
 * @returns `dialTerms` of them
 * @source linear model: polynomial, sines and backlash
 */
export function lawRow(fit: DialFit, reading: number, approach: number): Float64Array {
  const row = new Float64Array(dialTerms);
  smoothBasis(placeOf(reading, fit.scaling), row);
  row[smoothTerms] = -0.5 * approach * slopeInZ(fit, reading);
  return row;
}

/**
 * Slope of the dial at a reading.
 *
 * @param fit the fit
 * @param reading scale, divisions
 * @returns Hz a division
 * @source derivative of the fitted law, carried to frequency
 */
export function dialSlope(fit: DialFit, reading: number): number {
  const d = 1e-3 * fit.scaling.half;
  return (hzAt(fit, reading + d) - hzAt(fit, reading - d)) / (2 * d);
}

/**
 * Reading at which the dial stands at a frequency.
 *
 * @param fit the fit
 * @param hz frequency, Hz
 * @returns divisions; undefined beyond what the fit speaks of
 * @source bisection on the fitted law
 */
export function readingFor(fit: DialFit, hz: number): number | undefined {
  const [from, to] = reach(fit);
  const sign = Math.sign(hzAt(fit, to) - hzAt(fit, from));
  let [a, b] = [from, to];
  if (sign * (hz - hzAt(fit, a)) < 0 || sign * (hz - hzAt(fit, b)) > 0) return undefined;
  for (let i = 0; i < 50; i++) {
    const m = (a + b) / 2;
    if (sign * (hzAt(fit, m) - hz) < 0) a = m;
    else b = m;
  }
  return (a + b) / 2;
}

/**
 * Backlash. From points of one side only it is what was expected.
 *
 * @param fit the fit
 * @returns mean and standard uncertainty, divisions
 * @source the fit's own coefficient: mixture of normal parts
 */
export function backlashOf(fit: DialFit): { readonly value: number; readonly u: number } {
  let variance = 0;
  for (let i = 0; i < dialTerms; i++) variance += fit.root[i * dialTerms + smoothTerms] ** 2;
  return { value: fit.scaling.backlash + fit.mean[smoothTerms], u: Math.sqrt(variance) };
}
