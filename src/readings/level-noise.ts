import { median } from "../numerics/order";
import type { Sweep } from "./sweep";

/**
 * Noise of a sweep's levels, from second differences of neighbouring points (a smooth curve has small ones), robustly.
 *
 * @param levelDb levels in order of frequency, dB
 * @returns standard deviation of one level, dB; at least the rounding that the levels show
 * @source median absolute deviation times 1.4826; variance of a second difference is 6 times that of one point
 */
export function levelNoise(levelDb: Float64Array): number {
  const seconds = Array.from({ length: Math.max(0, levelDb.length - 2) }, (_, i) =>
    Math.abs(levelDb[i] - 2 * levelDb[i + 1] + levelDb[i + 2]),
  );
  if (seconds.length === 0) return 0;
  const flat = [...seconds].sort((a, b) => a - b).slice(0, Math.max(3, Math.ceil(seconds.length * 0.7)));
  return (1.4826 * median(flat) * 1.4) / Math.sqrt(6);
}

/**
 * Noise of a sweep's levels: as its file states it, and never less than what the levels show.
 *
 * @param sweep levels, with their uncertainties where they are known
 * @returns standard deviation of one level, dB
 * @source root mean square of stated uncertainties; else see `levelNoise`
 */
export function sweepNoise({ levelDb, levelUDb: u }: Pick<Sweep, "levelDb" | "levelUDb">): number {
  const stated = u && u.length > 0 ? Math.sqrt(u.reduce((sum, x) => sum + x * x, 0) / u.length) : 0;
  return Math.max(stated, levelNoise(levelDb));
}
