import { transposedSolveInPlace } from "./bayes-linear";
import { backSubstitute, choleskyFactor, householderInPlace, inverseOfNormal } from "./linear";

export interface LeastSquaresProblem {
  /** residuals r(p), written into `out` (length `rows`); any NaN marks the point as impossible */
  readonly residuals: (p: Float64Array, out: Float64Array) => void;
  readonly rows: number;
  readonly start: ArrayLike<number>;
  readonly low?: ArrayLike<number>;
  readonly high?: ArrayLike<number>;
  /** typical size of each parameter, for the difference step near zero */
  readonly scale?: ArrayLike<number>;
  /** one-sided differences: half the work, about half the digits; for fits to noisy readings */
  readonly coarse?: boolean;
  /** each parameter has a row of its own that pins it, as a prior does: normal equations are good enough, at a fraction of the work and half the digits */
  readonly pinned?: boolean;
  readonly iterations?: number;
  /** stop when a step would lower the cost by less than this part of it; 1e-15 where not stated */
  readonly enoughRatio?: number;
}

export interface LeastSquaresFit {
  /** `singular`: the end lies on a flat where the data do not tell the parameters apart, so it is no answer */
  readonly status: "converged" | "iterations-exhausted" | "stuck" | "singular";
  readonly p: Float64Array;
  readonly cost: number;
  readonly iterations: number;
  /** unscaled covariance (Jt J)^-1, row-major, free parameters only (0 for those held at a bound); undefined where singular */
  readonly normalInverse: Float64Array | undefined;
}

const sumOfSquares = (r: Float64Array): number => {
  let s = 0;
  for (let i = 0; i < r.length; i++) s += r[i] * r[i];
  return Number.isNaN(s) ? Number.POSITIVE_INFINITY : s;
};

/**
 * Bounded nonlinear least squares by Levenberg-Marquardt: minimises the sum of squared residuals.
 *
 * Damping on the running largest column norms (scale-free), gain-ratio update, bounds by projection with bound parameters held while
 * the gradient pushes outwards. Stops when the predicted and the actual relative reduction are both below `enoughRatio` or when every
 * step is below 1e-12 of its parameter; `iterations-exhausted` and `stuck` are said, never hidden.
 *
 * @param problem residuals, start, bounds; unknowns at most rows
 * @returns status, parameters, sum of squares, unscaled covariance
 * @source Marquardt 1963; scaling after More 1978 and gain-ratio update after Nielsen 1999, both from memory; checked on all NIST StRD
 *   nonlinear sets in least-squares.published.test.ts
 */
export function leastSquares(problem: LeastSquaresProblem): LeastSquaresFit {
  const n = problem.start.length;
  const m = problem.rows;
  const p = Float64Array.from(problem.start);
  const low = (i: number): number => problem.low?.[i] ?? Number.NEGATIVE_INFINITY;
  const high = (i: number): number => problem.high?.[i] ?? Number.POSITIVE_INFINITY;
  const r = new Float64Array(m);
  const trial = new Float64Array(m);
  const jacobian = new Float64Array(m * n);
  const norms = new Float64Array(n);
  const free = new Uint8Array(n);
  const most = problem.iterations ?? 400;
  const enough = problem.enoughRatio ?? 1e-15;
  problem.residuals(p, r);
  let cost = sumOfSquares(r);
  let lambda = 1e-3;
  let grow = 2;
  let status: LeastSquaresFit["status"] = "iterations-exhausted";
  let iteration = 0;
  for (; iteration < most; iteration++) {
    differentiate(problem, p, r, jacobian);
    for (let j = 0; j < n; j++) {
      let g = 0;
      let square = 0;
      for (let i = 0; i < m; i++) {
        g += jacobian[i * n + j] * r[i];
        square += jacobian[i * n + j] ** 2;
      }
      free[j] = (p[j] <= low(j) && g > 0) || (p[j] >= high(j) && g < 0) ? 0 : 1;
      if (iteration % 20 === 0) norms[j] = 0;
      norms[j] = Math.max(norms[j], Math.sqrt(square)) || 1e-300;
    }
    const normal = problem.pinned ? normalOf(jacobian, r, m, n) : undefined;
    let accepted = false;
    let small = false;
    for (let attempt = 0; attempt < 60 && !accepted && !small; attempt++) {
      const step = (normal && pinnedStep(normal, n, free, norms, lambda)) ?? dampedStep(jacobian, r, m, n, free, norms, lambda);
      const next = new Float64Array(n);
      let moved = 0;
      for (let j = 0; j < n; j++) {
        next[j] = Math.min(high(j), Math.max(low(j), p[j] + step[j]));
        moved = Math.max(moved, Math.abs(next[j] - p[j]) / (Math.abs(p[j]) + (problem.scale?.[j] ?? 0) + 1e-300));
      }
      problem.residuals(next, trial);
      const nextCost = sumOfSquares(trial);
      const predicted = predictedReduction(jacobian, r, next, p, m, n);
      small = moved < 1e-12 || predicted <= enough * cost;
      if (nextCost <= cost && (predicted > 0 || nextCost < cost)) {
        const gain = predicted > 0 ? (cost - nextCost) / predicted : 1;
        lambda *= Math.max(1 / 9, 1 - (2 * gain - 1) ** 3);
        lambda = Math.max(lambda, 1e-18);
        grow = 2;
        if (cost - nextCost > enough * cost) small = false;
        p.set(next);
        r.set(trial);
        cost = nextCost;
        accepted = true;
      } else {
        lambda *= grow;
        grow *= 2;
      }
    }
    if (small) {
      status = "converged";
      break;
    }
    if (!accepted) {
      status = "stuck";
      break;
    }
  }
  differentiate(problem, p, r, jacobian);
  const normalInverse = unscaledCovariance(jacobian, m, n, free);
  return { status: normalInverse ? status : "singular", p, cost, iterations: iteration, normalInverse };
}

function differentiate(problem: LeastSquaresProblem, p: Float64Array, r: Float64Array, jacobian: Float64Array): void {
  const n = p.length;
  const m = r.length;
  const plus = new Float64Array(m);
  const minus = new Float64Array(m);
  const at = Float64Array.from(p);
  for (let j = 0; j < n; j++) {
    const size = Math.max(Math.abs(p[j]), problem.scale?.[j] ?? 0) || 1;
    const h = (problem.coarse ? 1.5e-8 : 6e-6) * size;
    const top = problem.high?.[j] ?? Number.POSITIVE_INFINITY;
    const bottom = problem.low?.[j] ?? Number.NEGATIVE_INFINITY;
    const up = Math.min(top, p[j] + h);
    const down = problem.coarse && up > p[j] ? p[j] : Math.max(bottom, p[j] - h);
    at[j] = up;
    problem.residuals(at, plus);
    at[j] = down;
    if (down === p[j]) minus.set(r);
    else problem.residuals(at, minus);
    at[j] = p[j];
    const inverse = up > down ? 1 / (up - down) : 0;
    for (let i = 0; i < m; i++) {
      const d = (plus[i] - minus[i]) * inverse;
      jacobian[i * n + j] = Number.isFinite(d) ? d : 0;
    }
  }
}

function dampedStep(j: Float64Array, r: Float64Array, m: number, n: number, free: Uint8Array, norms: Float64Array, lambda: number) {
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

interface Normal {
  /** Jt J, row-major */
  readonly matrix: Float64Array;
  /** -Jt r */
  readonly vector: Float64Array;
}
function normalOf(j: Float64Array, r: Float64Array, m: number, n: number): Normal {
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
/** The damped step by Cholesky; undefined where rounding leaves no positive matrix. */
function pinnedStep(
  { matrix, vector }: Normal,
  n: number,
  free: Uint8Array,
  norms: Float64Array,
  lambda: number,
): Float64Array | undefined {
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

function predictedReduction(j: Float64Array, r: Float64Array, next: Float64Array, p: Float64Array, m: number, n: number): number {
  let reduction = 0;
  for (let i = 0; i < m; i++) {
    let d = 0;
    for (let k = 0; k < n; k++) d += j[i * n + k] * (next[k] - p[k]);
    reduction -= d * (2 * r[i] + d);
  }
  return reduction;
}

function unscaledCovariance(jacobian: Float64Array, m: number, n: number, free: Uint8Array): Float64Array | undefined {
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
