import type { DescribedStrip } from "../../set/strip";
import { bad, good, type Read } from "../../units/issue";
import type { Used } from "./misses";

export interface StripSweep {
  readonly frequencyHz: Float64Array;
  readonly levelDb: Float64Array;
  /** standard deviation of one level, dB */
  readonly noiseDb: number;
}

/** Below this the model has no stray coupling to offer, so points there are left out, dB under the peak. */
export const floorDb = 50;
/** What the model itself may be off by, added to the noise, dB. Assumed. */
const modelDb = 0.1;

/**
 * Points of a sweep within reach of the model, weighed by noise and by how far down they are.
 *
 * @param strip as described, for its IF
 * @param sweep Hz and dB
 * @returns the points, at least 20; or why the sweep is not of this strip
 * @source house rule
 */
export function usedOf(strip: DescribedStrip, sweep: StripSweep): Read<Used> {
  const topDb = sweep.levelDb.reduce((m, y) => Math.max(m, y), Number.NEGATIVE_INFINITY);
  const used = Array.from(sweep.levelDb.keys()).filter((i) => sweep.levelDb[i] > topDb - floorDb);
  if (used.length < 20) return bad("sweep", "too-few", `${used.length} points within ${floorDb} dB of the peak`, "at least 20");
  const ifHz = strip.intermediateFrequency.value;
  const [from, to] = [sweep.frequencyHz[0], sweep.frequencyHz[sweep.frequencyHz.length - 1]];
  if (ifHz < from || ifHz > to)
    return bad(
      "sweep",
      "not-this-strip",
      `${(from / 1e3).toFixed(1)} to ${(to / 1e3).toFixed(1)} kHz`,
      `a sweep across this strip's IF, ${(ifHz / 1e3).toFixed(1)} kHz`,
    );
  const db = Float64Array.from(used, (i) => sweep.levelDb[i]);
  const sigma = Math.hypot(sweep.noiseDb, modelDb);
  return good({
    hz: Float64Array.from(used, (i) => sweep.frequencyHz[i]),
    db,
    weights: db.map((y) => 1 / Math.hypot(sigma, 0.03 * Math.max(0, topDb - y - 20))),
    topDb,
  });
}
