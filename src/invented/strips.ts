import type { SlugsTouched } from "../infer/strip/attempt";
import { fitStrip } from "../infer/strip/fit";
import { choleskyFactor } from "../numerics/linear";
import { normalStream } from "../numerics/random";
import { StripResponse } from "../physics/if-strip";
import { peakOf, widthHz } from "../physics/passband";
import { levelNoise } from "../readings/level-noise";
import { can, intermediate } from "../set/patterns/strips";
import { type DescribedStrip, plainStrip, setStripLeaf } from "../set/strip";

/** A strip invented elsewhere, its sweep, and the truth behind it; Q and k Q are loaded ones. */
export interface StripWorld {
  readonly family: string;
  readonly nominalCentreHz: number;
  readonly nominalCans: readonly { readonly q1: number; readonly q2: number; readonly kq: number }[];
  readonly frequencyHz: readonly number[];
  readonly outputDb: readonly number[];
  readonly truth: { readonly width6Hz: number; readonly peakHz: number; readonly cans: readonly { readonly kq: number }[] };
}
const drawsCount = 200;

/**
 * Whether the 95 % intervals of a fit hold the width at -6 dB and each can's k Q; undefined where nothing was fitted.
 *
 * @param world an invented strip with its sweep
 * @param slugs whether they were touched
 * @returns whether each interval holds the truth, and the relative width of the interval
 * @source definition of coverage
 */
export function heldStrip(
  world: StripWorld,
  slugs: SlugsTouched,
): { readonly width: boolean; readonly partWidth: number; readonly kQ: readonly boolean[] } | undefined {
  const part = { c: [110e-12, 110e-12], gm: 1e-3, rp: 1e9, cout: 8e-12, cin: 8e-12, load: 1e9 } as const;
  const strip: DescribedStrip = {
    intermediateFrequency: intermediate(world.nominalCentreHz),
    cans: world.nominalCans.map((c, i) => can({ label: `T${i + 1}`, q: [c.q1, c.q2], k: c.kq / Math.sqrt(c.q1 * c.q2), ...part })),
    filter: null,
  };
  const levelDb = Float64Array.from(world.outputDb);
  const sweep = { frequencyHz: Float64Array.from(world.frequencyHz), levelDb, noiseDb: levelNoise(levelDb) };
  const read = fitStrip(strip, sweep, "e", ["r"], slugs);
  if (!read.ok) return undefined;
  const { names, values, logarithmic, covariance } = read.value.estimate;
  const n = names.length;
  const factor = choleskyFactor(covariance.flat(), n) ?? new Float64Array(n * n);
  const streams = names.map((name) => normalStream(1, name, drawsCount));
  const response = new StripResponse();
  const model = plainStrip(strip);
  const widths: number[] = [];
  const products: number[][] = model.cans.map(() => []);
  for (let k = 0; k < drawsCount; k++) {
    for (let i = 0; i < n; i++) {
      let move = 0;
      for (let j = 0; j <= i; j++) move += factor[i * n + j] * streams[j][k];
      setStripLeaf(model, names[i], logarithmic[i] ? values[i] * Math.exp(move) : values[i] + move);
    }
    response.load(model);
    widths.push(widthHz(response, peakOf(response, [world.nominalCentreHz, world.truth.peakHz]), 6));
    model.cans.forEach((c, i) => {
      products[i].push(c.coupling * Math.sqrt(c.primaryQ * c.secondaryQ));
    });
  }
  const ends = (v: number[]): readonly [number, number] => {
    const sorted = v.sort((a, b) => a - b);
    return [sorted[Math.floor(0.025 * drawsCount)], sorted[Math.ceil(0.975 * drawsCount) - 1]];
  };
  const holds = ([low, high]: readonly [number, number], truth: number): boolean => low <= truth && truth <= high;
  const width = ends(widths);
  return {
    width: holds(width, world.truth.width6Hz),
    partWidth: (width[1] - width[0]) / 2 / world.truth.width6Hz,
    kQ: world.truth.cans.map((c, i) => holds(ends(products[i]), c.kq)),
  };
}
