import type { Issue } from "../units/issue";
import { printValue } from "../units/print";

/** A log of a frequency over time since switching on, and of line volts where they were written down. */
export interface DriftLog {
  readonly timeS: Float64Array;
  readonly hz: Float64Array;
  /** volts of the line at each reading; NaN, or absent, where not written */
  readonly lineV?: Float64Array;
  /** kelvins or degrees of the room at each reading; NaN, or absent, where not written */
  readonly roomK?: Float64Array;
}
const leastRows = 8;
const mostRows = 600;
/**
 * Readings averaged in bins, where there are more than so many.
 *
 * @source means of bins; common practice, no source
 */
export function thinned(log: DriftLog, most = mostRows): DriftLog {
  const n = log.timeS.length;
  if (n <= most) return log;
  const each = Math.ceil(n / most);
  const mean = (a: Float64Array): Float64Array =>
    Float64Array.from({ length: Math.ceil(n / each) }, (_, i) => {
      const part = a.subarray(i * each, Math.min(n, (i + 1) * each));
      return part.reduce((s, v) => s + v, 0) / part.length;
    });
  return {
    timeS: mean(log.timeS),
    hz: mean(log.hz),
    ...(log.lineV ? { lineV: mean(log.lineV) } : {}),
    ...(log.roomK ? { roomK: mean(log.roomK) } : {}),
  };
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
        expected: `a frequency within 2 % of the others, near ${printValue(middle, "frequency", middle / 1e5)}: no warm-up moves a set that far`,
      },
    ];
  return [];
}

/** Volts of the line about their mean, where they tell something that heat does not: undefined where they were not written in every row, hardly moved, or moved along with the warm-up. */
export const lineAlone = (log: DriftLog): Float64Array | undefined => apartFromHeat(lineColumn(log.lineV, log.timeS.length), log.timeS);
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
