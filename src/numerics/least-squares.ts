import { dampedStep, type Linearised, normalOf, pinnedStep, predictedReduction, unscaledCovariance } from "./damped-steps";

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
  const most = problem.iterations ?? 400;
  const at: Here = {
    p: Float64Array.from(problem.start),
    r: new Float64Array(problem.rows),
    trial: new Float64Array(problem.rows),
    jacobian: new Float64Array(problem.rows * n),
    norms: new Float64Array(n),
    free: new Uint8Array(n),
    m: problem.rows,
    n,
    cost: 0,
    lambda: 1e-3,
    grow: 2,
  };
  problem.residuals(at.p, at.r);
  at.cost = sumOfSquares(at.r);
  let status: LeastSquaresFit["status"] = "iterations-exhausted";
  let iteration = 0;
  for (; iteration < most; iteration++) {
    differentiate(problem, at.p, at.r, at.jacobian);
    weighColumns(problem, at, iteration % 20 === 0);
    const end = advance(problem, at);
    if (end !== "further") {
      status = end;
      break;
    }
  }
  differentiate(problem, at.p, at.r, at.jacobian);
  const normalInverse = unscaledCovariance(at);
  return { status: normalInverse ? status : "singular", p: at.p, cost: at.cost, iterations: iteration, normalInverse };
}

/** Where the search stands: parameters, residuals, what they are linearised to, and how far steps are damped. */
interface Here extends Linearised {
  readonly p: Float64Array;
  readonly trial: Float64Array;
  cost: number;
  lambda: number;
  grow: number;
}

/** Which parameters are free of their bounds, and the largest column norms so far. */
function weighColumns(problem: LeastSquaresProblem, at: Here, anew: boolean): void {
  const { jacobian, r, m, n, p, free, norms } = at;
  for (let j = 0; j < n; j++) {
    let g = 0;
    let square = 0;
    for (let i = 0; i < m; i++) {
      g += jacobian[i * n + j] * r[i];
      square += jacobian[i * n + j] ** 2;
    }
    const low = problem.low?.[j] ?? Number.NEGATIVE_INFINITY;
    const high = problem.high?.[j] ?? Number.POSITIVE_INFINITY;
    free[j] = (p[j] <= low && g > 0) || (p[j] >= high && g < 0) ? 0 : 1;
    if (anew) norms[j] = 0;
    norms[j] = Math.max(norms[j], Math.sqrt(square)) || 1e-300;
  }
}
/** The point that a step leads to within the bounds, and the largest part of a parameter that it moves. */
function stepped(problem: LeastSquaresProblem, at: Here, step: Float64Array): { readonly next: Float64Array; readonly moved: number } {
  const { p, n } = at;
  const next = new Float64Array(n);
  let moved = 0;
  for (let j = 0; j < n; j++) {
    const low = problem.low?.[j] ?? Number.NEGATIVE_INFINITY;
    const high = problem.high?.[j] ?? Number.POSITIVE_INFINITY;
    next[j] = Math.min(high, Math.max(low, p[j] + step[j]));
    moved = Math.max(moved, Math.abs(next[j] - p[j]) / (Math.abs(p[j]) + (problem.scale?.[j] ?? 0) + 1e-300));
  }
  return { next, moved };
}
/** Tries steps, each damped more, until one lowers the cost, all are small, or sixty have failed. */
function advance(problem: LeastSquaresProblem, at: Here): "further" | "converged" | "stuck" {
  const enough = problem.enoughRatio ?? 1e-15;
  const normal = problem.pinned ? normalOf(at) : undefined;
  let accepted = false;
  let small = false;
  for (let attempt = 0; attempt < 60 && !accepted && !small; attempt++) {
    const step = (normal && pinnedStep(normal, at, at.lambda)) ?? dampedStep(at, at.lambda);
    const { next, moved } = stepped(problem, at, step);
    problem.residuals(next, at.trial);
    const nextCost = sumOfSquares(at.trial);
    const predicted = predictedReduction(at, next, at.p);
    small = moved < 1e-12 || predicted <= enough * at.cost;
    if (nextCost <= at.cost && (predicted > 0 || nextCost < at.cost)) {
      const gain = predicted > 0 ? (at.cost - nextCost) / predicted : 1;
      at.lambda = Math.max(at.lambda * Math.max(1 / 9, 1 - (2 * gain - 1) ** 3), 1e-18);
      at.grow = 2;
      if (at.cost - nextCost > enough * at.cost) small = false;
      at.p.set(next);
      at.r.set(at.trial);
      at.cost = nextCost;
      accepted = true;
    } else {
      at.lambda *= at.grow;
      at.grow *= 2;
    }
  }
  return small ? "converged" : accepted ? "further" : "stuck";
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
