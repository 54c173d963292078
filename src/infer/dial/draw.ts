import { transposedSolveInPlace } from "../../numerics/bayes-linear";
import { smoothBasis, smoothTerms } from "../../numerics/smooth-basis";
import { type DialFit, hzOf, slopeInZ } from "./fitted";
import { dialTerms, placeOf } from "./scaling";

/** One draw of the whole law: writes the frequency at each of the readings that were laid out, Hz. */
export type DialDraw = (along: DialAxis, into: Float64Array) => void;
/** Readings with their basis laid out once, for many draws. */
export interface DialAxis {
  readonly columns: Float64Array;
  readonly shifts: Float64Array;
}
/**
 * Lays readings out for many draws.
 *
 * @param fit the fit
 * @param readings divisions, length n
 * @param approach side that they are turned to from; the fit's own where it is not said
 * @returns columns of the model, `dialTerms` by n, and what the expected backlash adds to z at each
 * @source linear model: polynomial, sines and backlash
 */
export function dialAxis(fit: DialFit, readings: ArrayLike<number>, approach: number = fit.side): DialAxis {
  const n = readings.length;
  const columns = new Float64Array(n * dialTerms);
  const shifts = new Float64Array(n);
  const row = new Float64Array(dialTerms);
  for (let i = 0; i < n; i++) {
    smoothBasis(placeOf(readings[i], fit.scaling), row);
    row[smoothTerms] = -0.5 * approach * slopeInZ(fit, readings[i]);
    shifts[i] = row[smoothTerms] * fit.scaling.backlash;
    for (let j = 0; j < dialTerms; j++) columns[j * n + i] = row[j];
  }
  return { columns, shifts };
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
  return ({ columns, shifts }, into) => {
    const n = shifts.length;
    into.set(shifts);
    // one term after the other over all readings: sums that do not wait for each other
    for (let j = 0; j < dialTerms; j++) {
      const c = w[j];
      if (c === 0) continue;
      for (let i = 0, at = j * n; i < n; i++, at++) into[i] += columns[at] * c;
    }
    for (let i = 0; i < n; i++) into[i] = hzOf(into[i], fit);
  };
}
