import { leastSquares } from "../../numerics/least-squares";
import { backSubstitute, householderInPlace, inverseOfNormal } from "../../numerics/linear";
import { judgeMisfit, type Misfit } from "../../numerics/misfit";
import { type DriftLog, lineAlone, logIssues, thinned } from "../../readings/drift-log";
import { bad, good, type Read } from "../../units/issue";

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
  /** what the misses say of one or two time constants: where the law fails, or misses in a pattern, end and time constants are none */
  readonly misfit: Misfit;
  /** whether it moves no more than its readings scatter */
  readonly steady: boolean;
  /** covariance of end, amplitudes, line slope where there is one, and logarithms of the time constants, row by row */
  readonly covariance: Float64Array;
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
  const line = lineAlone({ timeS, hz, ...(lineV ? { lineV } : {}) });
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
      misfit: judgeMisfit({ residuals: solve([]).rest, parameters: fixed }),
      steady: true,
      covariance: new Float64Array((fixed + 2) ** 2),
    });
  }
  const free = n - fixed - 4;
  const takesTwo = most === 2 && free > 2 && two[1] > 1.5 * two[0] && (r1 - r2) / 2 > (5 * Math.max(r2, 1e-18 * meanHz ** 2)) / free;
  const tau = takesTwo ? two : one;
  const { x, rss, rest } = solve(tau);
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
  if (!normal) return bad("log", "no-fit", `${n} readings`, "a log long enough to show it settling");
  const misfit = judgeMisfit({ residuals: rest, parameters: cols });
  const variance = Math.max(rss / Math.max(1, n - cols), (misfit.noise * misfit.widenRatio) ** 2);
  const covariance = normal.map((v) => v * variance);
  return good({
    endHz: meanHz + x[0],
    amplitudesHz: amplitudes,
    tauS: tau,
    lineHzPerV: line ? x[fixed + tau.length - 1] : undefined,
    rmsHz: Math.sqrt(rss / n),
    untilS: until,
    misfit,
    steady: false,
    covariance,
  });
}
