import { transposedSolveInPlace } from "./bayes-linear";
import { backSubstitute, choleskyFactor, householderInPlace, inverseOfNormal } from "./linear";

/** A least-squares problem at a point: residuals and how they go with each parameter. */
export interface Linearised {
  /** residuals, m */
  readonly r: Float64Array;
  /** their derivatives, m by n, row-major */
  readonly jacobian: Float64Array;
  readonly m: number;
  readonly n: number;
  /** 1 for a parameter that is not held at a bound, n */
  readonly free: Uint8Array;
  /** largest norm of each column so far, n */
  readonly norms: Float64Array;
}

/**
 * The damped step by orthogonal reflections: minimises |J x + r|^2 + lambda |D x|^2.
 *
 * @param at residuals m, Jacobian m by n row-major, column norms D, which parameters are free
 * @param lambda damping, above 0
 * @returns step, n; 0 for those held
 * @source Marquardt 1963, scaled by column norms after More 1978 (from memory)
 */
export function dampedStep({ jacobian: j, r, m, n, free, norms }: Linearised, lambda: number): Float64Array {
  const rows = m + n;
  const a = new Float64Array(rows * n);
  const b = new Float64Array(rows);
  for (let i = 0; i < m; i++) {
    b[i] = -r[i];
    for (let k = 0; k < n; k++) a[i * n + k] = free[k] ? j[i * n + k] : 0;
  }
  const root = Math.sqrt(lambda);
  for (let k = 0; k < n; k++) a[(m + k) * n + k] = free[k] ? root * norms[k] : 1;
  householderInPlace(a, b, rows, n);
  return backSubstitute(a, b, n);
}

export interface Normal {
  /** Jt J, row-major */
  readonly matrix: Float64Array;
  /** -Jt r */
  readonly vector: Float64Array;
}
/**
 * Normal equations of a linearised problem.
 *
 * @returns Jt J, n by n row-major, and -Jt r, n
 * @source definition
 */
export function normalOf({ jacobian: j, r, m, n }: Linearised): Normal {
  const matrix = new Float64Array(n * n);
  const vector = new Float64Array(n);
  for (let i = 0; i < m; i++)
    for (let k = 0; k < n; k++) {
      const v = j[i * n + k];
      if (v === 0) continue;
      vector[k] -= v * r[i];
      for (let l = 0; l <= k; l++) matrix[k * n + l] += v * j[i * n + l];
    }
  for (let k = 0; k < n; k++) for (let l = k + 1; l < n; l++) matrix[k * n + l] = matrix[l * n + k];
  return { matrix, vector };
}
/**
 * The damped step by Cholesky; half the digits of reflections, at a fraction of the work.
 *
 * @returns step, n; undefined where rounding leaves no positive matrix
 * @source Marquardt 1963
 */
export function pinnedStep({ matrix, vector }: Normal, { n, free, norms }: Linearised, lambda: number): Float64Array | undefined {
  const a = new Float64Array(n * n);
  const x = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    for (let l = 0; l < n; l++) a[k * n + l] = free[k] && free[l] ? matrix[k * n + l] : 0;
    a[k * n + k] = free[k] ? a[k * n + k] + lambda * norms[k] ** 2 : 1;
    x[k] = free[k] ? vector[k] : 0;
  }
  const factor = choleskyFactor(a, n);
  if (!factor) return undefined;
  for (let k = 0; k < n; k++) {
    for (let l = 0; l < k; l++) x[k] -= factor[k * n + l] * x[l];
    x[k] /= factor[k * n + k];
  }
  transposedSolveInPlace(factor, x, n);
  return x;
}

/**
 * By how much the linearised sum of squares falls between two points.
 *
 * @param at residuals and Jacobian at `p`
 * @param next where the step leads, n
 * @param p where it starts, n
 * @returns reduction of the sum of squares; negative where it rises
 * @source |r|^2 - |r + J d|^2
 */
export function predictedReduction({ jacobian: j, r, m, n }: Linearised, next: Float64Array, p: Float64Array): number {
  let reduction = 0;
  for (let i = 0; i < m; i++) {
    let d = 0;
    for (let k = 0; k < n; k++) d += j[i * n + k] * (next[k] - p[k]);
    reduction -= d * (2 * r[i] + d);
  }
  return reduction;
}

/**
 * Unscaled covariance of the free parameters.
 *
 * @returns (Jt J)^-1, n by n row-major, 0 for those held; undefined where singular
 * @source linear least squares; by reflections, so that the condition is not squared
 */
export function unscaledCovariance({ jacobian, m, n, free }: Linearised): Float64Array | undefined {
  const keep = Array.from(free.keys()).filter((k) => free[k]);
  const a = new Float64Array(m * keep.length);
  for (let i = 0; i < m; i++) for (let k = 0; k < keep.length; k++) a[i * keep.length + k] = jacobian[i * n + keep[k]];
  householderInPlace(a, new Float64Array(m), m, keep.length);
  const inner = inverseOfNormal(a, keep.length);
  if (!inner) return undefined;
  const out = new Float64Array(n * n);
  for (let i = 0; i < keep.length; i++) for (let k = 0; k < keep.length; k++) out[keep[i] * n + keep[k]] = inner[i * keep.length + k];
  return out;
}
