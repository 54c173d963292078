import { normalStream } from "../numerics/random";
import { StripResponse } from "../physics/if-strip";
import { type DescribedStrip, type MutableStrip, plainStrip, setStripLeaf, stripLeaves } from "../set/strip";
import { drawQuantity } from "../units/draws";

export interface InventedSweep {
  readonly truth: MutableStrip;
  readonly frequencyHz: Float64Array;
  readonly levelDb: Float64Array;
}

/**
 * A sweep that no instrument ever took: a strip drawn from its own tolerances, swept with noise. For the demo and for tests, and marked so.
 *
 * @param strip as described; its spreads are what the truth is drawn from
 * @param axis middle, half span and number of points, Hz
 * @param noise standard deviation of a level, dB, and level of the peak, dB
 * @param seedIndex seed of truth and noise
 * @returns the truth and the sweep, levels rounded to 0.01 dB
 * @source invented
 */
export function inventSweep(
  strip: DescribedStrip,
  axis: { readonly centreHz: number; readonly halfSpanHz: number; readonly points: number },
  noise: { readonly db: number; readonly peakDb: number },
  seedIndex: number,
): InventedSweep {
  const truth = plainStrip(strip);
  for (const l of stripLeaves(strip))
    setStripLeaf(truth, l.path, drawQuantity(l.quantity, l.path, { seed: seedIndex, draws: 1 }, l.positive)[0]);
  const response = new StripResponse(truth);
  const frequencyHz = Float64Array.from({ length: axis.points }, (_, i) =>
    Math.round(axis.centreHz - axis.halfSpanHz + (2 * axis.halfSpanHz * i) / (axis.points - 1)),
  );
  const power = frequencyHz.map((hz) => response.at(hz));
  const top = power.reduce((a, b) => Math.max(a, b), 0);
  const z = normalStream(seedIndex, "sweep noise", axis.points);
  const levelDb = power.map((p, i) => Math.round((10 * Math.log10(p / top) + noise.peakDb + noise.db * z[i]) * 100) / 100);
  return { truth, frequencyHz, levelDb };
}
