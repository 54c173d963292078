import { judgeMisfit, type Misfit } from "../../numerics/misfit";
import { type DriftLog, logIssues, thinned } from "../../readings/drift-log";
import { bad, good, type Read } from "../../units/issue";
import { SeparableLog } from "./separable";

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
  const rows = new SeparableLog(thinned(log));
  const { n, fixed } = rows;
  const { one, two } = rows.best();
  const [r1, r2] = [rows.solve(one).rss, rows.solve(two).rss];
  const still = rows.solve([]).rss;
  if ((still - r1) / 2 <= (5 * r1) / Math.max(1, n - fixed - 2)) return good(steadyFit(rows));
  const free = n - fixed - 4;
  const takesTwo = most === 2 && free > 2 && two[1] > 1.5 * two[0] && (r1 - r2) / 2 > (5 * Math.max(r2, 1e-18 * rows.meanHz ** 2)) / free;
  return fitAt(rows, takesTwo ? two : one);
}

/** A log that moves no more than its readings scatter. */
function steadyFit(rows: SeparableLog): DriftFit {
  const { x, rss, rest } = rows.solve([]);
  return {
    endHz: rows.meanHz + x[0],
    amplitudesHz: [0],
    tauS: [rows.untilS],
    lineHzPerV: rows.line ? x[1] : undefined,
    rmsHz: Math.sqrt(rss / rows.n),
    untilS: rows.untilS,
    misfit: judgeMisfit({ residuals: rest, parameters: rows.fixed }),
    steady: true,
    covariance: new Float64Array((rows.fixed + 2) ** 2),
  };
}

function fitAt(rows: SeparableLog, tau: readonly number[]): Read<DriftFit> {
  const { n, fixed } = rows;
  const { x, rss, rest } = rows.solve(tau);
  const amplitudesHz = tau.map((_, k) => x[1 + k]);
  const parameters = fixed + 2 * tau.length;
  const normal = rows.normalInverse(tau, amplitudesHz);
  if (!normal) return bad("log", "no-fit", `${n} readings`, "a log long enough to show it settling");
  const misfit = judgeMisfit({ residuals: rest, parameters });
  const variance = Math.max(rss / Math.max(1, n - parameters), (misfit.noise * misfit.widenRatio) ** 2);
  return good({
    endHz: rows.meanHz + x[0],
    amplitudesHz,
    tauS: tau,
    lineHzPerV: rows.line ? x[fixed + tau.length - 1] : undefined,
    rmsHz: Math.sqrt(rss / n),
    untilS: rows.untilS,
    misfit,
    steady: false,
    covariance: normal.map((v) => v * variance),
  });
}
