import { transposedSolveInPlace } from "../../numerics/bayes-linear";
import { smoothBasis, smoothTerms } from "../../numerics/smooth-basis";
import { type DialFit, hzOf, slopeInZ } from "./fitted";
import { dialTerms, placeOf } from "./scaling";

/** One draw of the whole law: writes the frequency at each of the readings that were laid out, Hz. */
export type DialDraw = (along: DialAxis, into: Float64Array) => void;
/** Readings with their basis laid out once, for many draws. */
export interface DialAxis {
  readonly rows: Float64Array;
  readonly shifts: Float64Array;
}
/**
 * Lays readings out for many draws.
 *
 * @param fit the fit
 * @param readings divisions, length n
 * @param approach side that they are turned to from; the fit's own where it is not said
 * @returns rows of the model, n by `dialTerms`, and what the expected backlash adds to z at each
 * @source linear model: polynomial, sines and backlash
 */
export function dialAxis(fit: DialFit, readings: ArrayLike<number>, approach: number = fit.side): DialAxis {
  const rows = new Float64Array(readings.length * dialTerms);
  const shifts = new Float64Array(readings.length);
  for (let i = 0; i < readings.length; i++) {
    const row = rows.subarray(i * dialTerms, (i + 1) * dialTerms);
    smoothBasis(placeOf(readings[i], fit.scaling), row);
    row[smoothTerms] = -0.5 * approach * slopeInZ(fit, readings[i]);
    shifts[i] = row[smoothTerms] * fit.scaling.backlash;
  }
  return { rows, shifts };
}
/**
 * Draws a law from the fit.
 *
 * @param fit the fit
 * @param which chance of the part, 0 to 1
 * @param xi standard normals, one a coefficient: `dialTerms` of them
 * @param widening factor on the law's own uncertainty
 * @returns the law: a part by its weight, its coefficients by chance
 * @source mixture of normal parts
 */
export function drawDial(fit: DialFit, which: number, xi: ArrayLike<number>, widening: number): DialDraw {
  let k = 0;
  for (let left = which; k < fit.parts.length - 1 && left > fit.parts[k].weight; k++) left -= fit.parts[k].weight;
  const part = fit.parts[k];
  const w = Float64Array.from({ length: dialTerms }, (_, i) => xi[i] * widening);
  transposedSolveInPlace(part.factor, w, dialTerms);
  for (let i = 0; i < dialTerms; i++) w[i] = (w[i] + part.mean[i]) * part.size[i];
  return ({ rows, shifts }, into) => {
    for (let i = 0, at = 0; i < shifts.length; i++) {
      let z = shifts[i];
      for (let j = 0; j < dialTerms; j++, at++) z += rows[at] * w[j];
      into[i] = hzOf(z, fit);
    }
  };
}
