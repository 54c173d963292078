import { leastSquares } from "../numerics/least-squares";
import { backSubstitute, householderInPlace, inverseOfNormal } from "../numerics/linear";
import { bad, good, type Issue, type Read } from "../units/issue";
import { printValue } from "../units/print";

/** A log of a frequency over time since switching on, and of line volts where they were written down. */
export interface DriftLog {
  readonly timeS: Float64Array;
  readonly hz: Float64Array;
  /** volts of the line at each reading; NaN, or absent, where not written */
  readonly lineV?: Float64Array;
}
/** A warm-up of one or two time constants: f = end + sum a exp(-t/tau) + slope (line - its mean). */
export interface DriftFit {
  readonly endHz: number;
  /** amplitudes at switching on, fast one first, Hz, and their time constants, s */
  readonly amplitudesHz: readonly number[];
  readonly tauS: readonly number[];
  /** Hz a volt of the line; undefined where it was not logged or did not move */
  readonly lineHzPerV: number | undefined;
  readonly rmsHz: number;
  /** time of the last reading, s */
  readonly untilS: number;
  /** whether the log is too short to tell the end: shorter than 40 minutes, than 1.2 of the slow one of two time constants or 3 of a single one, or the end known to no better than a tenth of the drift */
  readonly tooShort: boolean;
  /** whether it moves no more than its readings scatter */
  readonly steady: boolean;
  /** covariance of end, amplitudes, line slope where there is one, and logarithms of the time constants, row by row */
  readonly covariance: Float64Array;
}
/** What of the drift is still to come at a time, Hz: positive where the frequency is still to fall. */
export const leftHz = (f: Pick<DriftFit, "amplitudesHz" | "tauS">, atS: number): number =>
  f.amplitudesHz.reduce((s, a, k) => s + a * Math.exp(-atS / f.tauS[k]), 0);
/** How fast it moves at a time, Hz/s. */
export const rateHzPerS = (f: Pick<DriftFit, "amplitudesHz" | "tauS">, atS: number): number =>
  f.amplitudesHz.reduce((s, a, k) => s - (a / f.tauS[k]) * Math.exp(-atS / f.tauS[k]), 0);
/** Time from which it moves no more than so fast, s; 0 where it never does. Source: bisection on the slope from the far end. */
export function settledAfterS(f: Pick<DriftFit, "amplitudesHz" | "tauS">, limitHzPerS: number): number {
  const slow = Math.max(...f.tauS);
  const steps = 400;
  const far = 12 * slow;
  let k = steps;
  while (k > 0 && Math.abs(rateHzPerS(f, (far * (k - 1)) / steps)) <= limitHzPerS) k--;
  if (k === 0) return 0;
  if (k === steps) return far;
  let [fast, calm] = [(far * (k - 1)) / steps, (far * k) / steps];
  for (let i = 0; i < 50; i++) {
    const mid = (fast + calm) / 2;
    if (Math.abs(rateHzPerS(f, mid)) > limitHzPerS) fast = mid;
    else calm = mid;
  }
  return calm;
}

const leastRows = 8;
/** A chassis takes 30 to 60 minutes to warm: a shorter log may not show it at all. Common practice, no source. */
const shortestS = 2400;
const mostRows = 600;
/** Readings averaged in bins, where there are very many. */
function thinned(log: DriftLog): DriftLog {
  const n = log.timeS.length;
  if (n <= mostRows) return log;
  const each = Math.ceil(n / mostRows);
  const mean = (a: Float64Array): Float64Array =>
    Float64Array.from({ length: Math.ceil(n / each) }, (_, i) => {
      const part = a.subarray(i * each, Math.min(n, (i + 1) * each));
      return part.reduce((s, v) => s + v, 0) / part.length;
    });
  return { timeS: mean(log.timeS), hz: mean(log.hz), ...(log.lineV ? { lineV: mean(log.lineV) } : {}) };
}

/**
 * What is wrong with a log, each at its row: too few, time running back, no frequency.
 *
 * @param log the log
 * @param path name of the input
 * @returns issues, none where it can be fitted
 * @source house rule
 */
export function logIssues(log: DriftLog, path: string): Issue[] {
  const n = log.timeS.length;
  if (n < leastRows) return [{ path, code: "too-few", read: `${n} readings`, expected: `at least ${leastRows} readings` }];
  for (let i = 0; i < n; i++) {
    if (!(log.hz[i] > 0))
      return [{ path: `${path} row ${i + 1}`, code: "not-a-frequency", read: String(log.hz[i]), expected: "a frequency above 0" }];
    if (!Number.isFinite(log.timeS[i]) || log.timeS[i] < 0)
      return [{ path: `${path} row ${i + 1}`, code: "not-a-time", read: String(log.timeS[i]), expected: "a time since switching on" }];
    if (i > 0 && log.timeS[i] <= log.timeS[i - 1])
      return [
        {
          path: `${path} row ${i + 1}`,
          code: "time-runs-back",
          read: `${printValue(log.timeS[i], "time")} after ${printValue(log.timeS[i - 1], "time")}`,
          expected: "a later time in each row",
        },
      ];
  }
  const middle = Float64Array.from(log.hz).sort()[n >> 1];
  const far = log.hz.findIndex((v) => Math.abs(v / middle - 1) > 0.02);
  if (far >= 0)
    return [
      {
        path: `${path} row ${far + 1}`,
        code: "far-off",
        read: printValue(log.hz[far], "frequency", log.hz[far] / 1e5),
        expected: `a frequency within 2 % of the others, near ${printValue(middle, "frequency", middle / 1e5)}: no warm-up moves a set so far`,
      },
    ];
  return [];
}

/**
 * Fits a warm-up: one time constant, and a second one where the log asks for it.
 *
 * Separable least squares: for given time constants all else is linear. The second is taken where it lowers the sum of squares by more than chance
 * would once in a hundred times (F above 5).
 *
 * @param log at least eight readings, times rising
 * @param most time constants at most
 * @returns the fit; an issue where the log can't be fitted
 * @source variable projection (Golub and Pereyra 1973, from memory) on a grid of time constants, then Levenberg-Marquardt; F test
 */
export function fitDrift(log: DriftLog, most: 1 | 2 = 2): Read<DriftFit> {
  const issues = logIssues(log, "log");
  if (issues.length > 0) return { ok: false, issues };
  const { timeS, hz, lineV } = thinned(log);
  const n = timeS.length;
  const until = timeS[n - 1];
  const meanHz = hz.reduce((s, v) => s + v, 0) / n;
  const y = hz.map((v) => v - meanHz);
  const line = apartFromHeat(lineColumn(lineV, n), timeS);
  const fixed = line ? 2 : 1;
  const design = (tau: readonly number[]): Float64Array => {
    const cols = fixed + tau.length;
    const a = new Float64Array(n * cols);
    for (let i = 0; i < n; i++) {
      a[i * cols] = 1;
      tau.forEach((t, k) => {
        a[i * cols + 1 + k] = Math.exp(-timeS[i] / t);
      });
      if (line) a[i * cols + cols - 1] = line[i];
    }
    return a;
  };
  const solve = (tau: readonly number[]): { readonly x: Float64Array; readonly rss: number; readonly rest: Float64Array } => {
    const cols = fixed + tau.length;
    const a = design(tau);
    const rest = y.slice();
    const work = a.slice();
    const b = y.slice();
    householderInPlace(work, b, n, cols);
    const x = backSubstitute(work, b, cols);
    let rss = 0;
    for (let i = 0; i < n; i++) {
      for (let c = 0; c < cols; c++) rest[i] -= a[i * cols + c] * x[c];
      rss += rest[i] ** 2;
    }
    return { x, rss: Number.isFinite(rss) ? rss : Number.POSITIVE_INFINITY, rest };
  };
  const step = Math.max(until / 400, (timeS[n - 1] - timeS[0]) / n / 2);
  const grid = Array.from({ length: 28 }, (_, i) => step * ((4 * until) / step) ** (i / 27));
  const refined = (start: readonly number[]): readonly number[] => {
    const found = leastSquares({
      rows: n,
      start: start.map(Math.log),
      low: start.map(() => Math.log(step / 4)),
      high: start.map(() => Math.log(20 * until)),
      residuals: (p, out) => {
        out.set(solve(Array.from(p, Math.exp)).rest);
      },
    });
    return Array.from(found.p, Math.exp);
  };
  const best = (tries: readonly (readonly number[])[]): readonly number[] => tries.reduce((b, t) => (solve(t).rss < solve(b).rss ? t : b));
  const one = refined(best(grid.map((t) => [t])));
  const two = [...refined(best(grid.flatMap((f, i) => grid.slice(i + 3).map((s) => [f, s]))))].sort((p, q) => p - q);
  const [r1, r2] = [solve(one).rss, solve(two).rss];
  const still = solve([]).rss;
  if ((still - r1) / 2 <= (5 * r1) / Math.max(1, n - fixed - 2)) {
    const { x } = solve([]);
    return good({
      endHz: meanHz + x[0],
      amplitudesHz: [0],
      tauS: [until],
      lineHzPerV: line ? x[1] : undefined,
      rmsHz: Math.sqrt(still / n),
      untilS: until,
      tooShort: until < shortestS,
      steady: true,
      covariance: new Float64Array((fixed + 2) ** 2),
    });
  }
  const free = n - fixed - 4;
  const takesTwo = most === 2 && free > 2 && two[1] > 1.5 * two[0] && (r1 - r2) / 2 > (5 * Math.max(r2, 1e-18 * meanHz ** 2)) / free;
  const tau = takesTwo ? two : one;
  const { x, rss } = solve(tau);
  const amplitudes = tau.map((_, k) => x[1 + k]);
  // the whole Jacobian, time constants too, for the covariance
  const cols = fixed + 2 * tau.length;
  const jacobian = new Float64Array(n * cols);
  for (let i = 0; i < n; i++) {
    jacobian[i * cols] = 1;
    tau.forEach((t, k) => {
      const e = Math.exp(-timeS[i] / t);
      jacobian[i * cols + 1 + k] = e;
      jacobian[i * cols + fixed + tau.length + k] = (amplitudes[k] * e * timeS[i]) / t;
    });
    if (line) jacobian[i * cols + 1 + tau.length] = line[i];
  }
  householderInPlace(jacobian, new Float64Array(n), n, cols);
  const normal = inverseOfNormal(jacobian, cols);
  if (!normal) return bad("log", "no-fit", `${n} readings`, "a log that is long enough to see it settle");
  const variance = rss / Math.max(1, n - cols);
  const covariance = normal.map((v) => v * variance);
  const drift = amplitudes.reduce((s, a) => s + Math.abs(a), 0);
  return good({
    endHz: meanHz + x[0],
    amplitudesHz: amplitudes,
    tauS: tau,
    lineHzPerV: line ? x[fixed + tau.length - 1] : undefined,
    rmsHz: Math.sqrt(rss / n),
    untilS: until,
    // behind a single time constant a slower one may hide that so short a log can't show
    tooShort: until < shortestS || until < (takesTwo ? 1.2 : 3) * Math.max(...tau) || Math.sqrt(covariance[0]) > drift / 10,
    steady: false,
    covariance,
  });
}
/** The line's column, unless it moved along with the warm-up: then heat and line can't be told apart. Source: share of it that a warm-up curve explains, nine tenths at most. */
function apartFromHeat(line: Float64Array | undefined, timeS: Float64Array): Float64Array | undefined {
  if (!line) return undefined;
  const n = timeS.length;
  const all = line.reduce((s, v) => s + v * v, 0);
  for (let k = 0; k < 24; k++) {
    const tau = (timeS[n - 1] / 100) * 300 ** (k / 23);
    const e = timeS.map((t) => Math.exp(-t / tau));
    const mean = e.reduce((s, v) => s + v, 0) / n;
    let [along, own] = [0, 0];
    for (let i = 0; i < n; i++) {
      along += (e[i] - mean) * line[i];
      own += (e[i] - mean) ** 2;
    }
    if (own > 0 && (along * along) / own > 0.9 * all) return undefined;
  }
  return line;
}
/** Volts of the line about their mean; undefined where they were not written in every row, or moved by less than one part in a hundred. */
function lineColumn(lineV: Float64Array | undefined, n: number): Float64Array | undefined {
  if (!lineV || lineV.length !== n || lineV.some((v) => !(v > 0))) return undefined;
  const mean = lineV.reduce((s, v) => s + v, 0) / n;
  return Math.max(...lineV) - Math.min(...lineV) > 0.01 * mean ? lineV.map((v) => v - mean) : undefined;
}
