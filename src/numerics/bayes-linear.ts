import { choleskyFactor } from "./linear";

/** Weighted normal equations of a linear model, with what the evidence needs besides. */
export interface NormalEquations {
  readonly size: number;
  readonly matrix: Float64Array;
  readonly vector: Float64Array;
  readonly square: number;
  readonly logVariance: number;
}
/**
 * Weighs rows of a linear model by the variance of each target.
 *
 * @param rows one a target, all of one length n
 * @param target targets
 * @param variance variance of each target
 * @returns normal equations of order n
 * @source weighted least squares, textbook
 */
export function normalEquations(rows: readonly Float64Array[], target: readonly number[], variance: readonly number[]): NormalEquations {
  const n = rows[0].length;
  const matrix = new Float64Array(n * n);
  const vector = new Float64Array(n);
  let square = 0;
  let logVariance = 0;
  for (const [k, row] of rows.entries()) {
    const w = 1 / variance[k];
    square += w * target[k] ** 2;
    logVariance += Math.log(variance[k]);
    for (let i = 0; i < n; i++) {
      const wi = w * row[i];
      if (wi === 0) continue;
      vector[i] += wi * target[k];
      for (let j = 0; j <= i; j++) matrix[i * n + j] += wi * row[j];
    }
  }
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) matrix[i * n + j] = matrix[j * n + i];
  return { size: n, matrix, vector, square, logVariance };
}

export interface Posterior {
  /** of the whitened coefficients: each is its own prior standard deviation times this */
  readonly mean: Float64Array;
  /** lower Cholesky factor of the whitened posterior precision, row-major */
  readonly factor: Float64Array;
  /** logarithm of the evidence, but for the constant of the number of targets */
  readonly log: number;
}
/**
 * Posterior of linear coefficients that are normal about zero beforehand.
 *
 * @param g normal equations
 * @param size prior standard deviation of each coefficient; 0 holds it at zero
 * @returns posterior and evidence; undefined where rounding leaves no positive precision
 * @source Rasmussen and Williams, Gaussian Processes for Machine Learning (2006), 2.1; checked with the direct n by n form in the test
 */
export function posterior(g: NormalEquations, size: Float64Array): Posterior | undefined {
  const n = g.size;
  const a = new Float64Array(n * n);
  // the factor reads the lower half
  for (let i = 0; i < n; i++) {
    const own = i * n;
    for (let j = 0; j <= i; j++) a[own + j] = size[i] * size[j] * g.matrix[own + j];
    a[own + i] += 1;
  }
  const l = choleskyFactor(a, n);
  if (!l) return undefined;
  const half = new Float64Array(n);
  let explained = 0;
  let logDeterminant = 0;
  for (let i = 0; i < n; i++) {
    let s = size[i] * g.vector[i];
    for (let k = 0; k < i; k++) s -= l[i * n + k] * half[k];
    half[i] = s / l[i * n + i];
    explained += half[i] ** 2;
    logDeterminant += 2 * Math.log(l[i * n + i]);
  }
  transposedSolveInPlace(l, half, n);
  return { mean: half, factor: l, log: -0.5 * (g.square - explained + logDeterminant + g.logVariance) };
}
/**
 * Solves L^T x = b in place.
 *
 * @param l lower factor, row-major
 * @param b right side; receives the solution
 * @param n order
 * @source back substitution, textbook
 */
export function transposedSolveInPlace(l: Float64Array, b: Float64Array, n: number): void {
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) b[i] -= l[k * n + i] * b[k];
    b[i] /= l[i * n + i];
  }
}
