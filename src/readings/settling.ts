import { leastSquares } from "../numerics/least-squares";
import { bad, good, type Read } from "../units/issue";

export interface Settling {
  readonly end: number;
  readonly amplitude: number;
  readonly timeConstantS: number;
  readonly rms: number;
}

/**
 * A log that settles: y = end + amplitude exp(-t / tau).
 *
 * @param timeS times, s, ascending
 * @param y readings, any unit
 * @returns end value, amplitude, time constant, rms residual; an issue where the log does not tell
 * @source warm-up law of one time constant
 */
export function fitSettling(timeS: Float64Array, y: Float64Array): Read<Settling> {
  const n = timeS.length;
  if (n < 6) return bad("log", "too-few", `${n} readings`, "at least 6 readings");
  const span = timeS[n - 1] - timeS[0];
  const scale = Math.max(1e-30, Math.abs(y[n - 1] - y[0]));
  const found = leastSquares({
    rows: n,
    start: [0, (y[0] - y[n - 1]) / scale, Math.log(span / 4)],
    scale: [1, 1, 1],
    low: [-1e3, -1e3, Math.log(span / 1e4)],
    high: [1e3, 1e3, Math.log(span * 10)],
    residuals: (p, out) => {
      for (let i = 0; i < n; i++) out[i] = p[0] + p[1] * Math.exp(-timeS[i] / Math.exp(p[2])) - (y[i] - y[n - 1]) / scale;
    },
  });
  if (!found.normalInverse) return bad("log", "no-fit", found.status, "a log long enough to see it settle");
  return good({
    end: y[n - 1] + found.p[0] * scale,
    amplitude: found.p[1] * scale,
    timeConstantS: Math.exp(found.p[2]),
    rms: scale * Math.sqrt(found.cost / n),
  });
}
