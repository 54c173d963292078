import { normalStream } from "../numerics/random";
import { smoothed } from "../numerics/whittaker";
import { crossingNear } from "./crossing-near";
import { levelNoise } from "./level-noise";
import type { Sweep } from "./sweep";

/** What a smoothed top says: values, less the bias that smoothing shows on readings made from it, with standard uncertainties. */
export interface NoisyTop {
  readonly peakDb: Told;
  readonly peakHz: Told;
  /** by level under the top, where both sides reach it */
  readonly edges: ReadonlyMap<number, { readonly low: Told; readonly high: Told; readonly width: Told }>;
}
export interface Told {
  readonly value: number;
  readonly u: number;
}
/** Below this the single points are good enough, dB. House rule, no source. */
const leastNoiseDb = 0.1;
/** So far under the top the smoothing reaches, dB: the more of the flanks it sees, the better it knows the scatter. */
const reachDb = 30;
const madeCount = 200;
/** Standard uncertainties to either side of a 95 % interval. */
const sure = 1.96;

interface Cut {
  readonly peakDb: number;
  readonly peakHz: number;
  readonly edges: readonly (readonly [low: number, high: number] | undefined)[];
}
/** Highest point and outermost crossings of a smooth curve. */
function cutOf(f: Float64Array, y: Float64Array, levels: readonly number[]): Cut {
  let top = 0;
  for (let i = 1; i < y.length; i++) if (y[i] > y[top]) top = i;
  const inner = top > 0 && top < y.length - 1;
  const bend = inner ? y[top - 1] - 2 * y[top] + y[top + 1] : 0;
  const shift = bend < 0 ? (0.5 * (y[top - 1] - y[top + 1])) / bend : 0;
  const peakDb = y[top] - (inner ? 0.25 * (y[top - 1] - y[top + 1]) * shift : 0);
  const step = inner ? (f[top + 1] - f[top - 1]) / 2 : 0;
  const crossing = (level: number, from: number, side: 1 | -1): number | undefined => {
    for (let i = from; i + side >= 0 && i + side < y.length; i += side)
      if (y[i] <= level && y[i + side] > level) return crossingNear(f, y, i, i + side, level);
    return undefined;
  };
  return {
    peakDb,
    peakHz: f[top] + shift * step,
    edges: levels.map((l) => {
      const [low, high] = [crossing(peakDb - l, 0, 1), crossing(peakDb - l, y.length - 1, -1)];
      return low === undefined || high === undefined || low > f[top] || high < f[top] ? undefined : [low, high];
    }),
  };
}

/**
 * Top and edges of a noisy sweep: the part near the top is smoothed, so that the highest noise is not taken for the top. The curves that its readings leave
 * possible give the uncertainty; what the same smoothing makes of sweeps invented from the mean curve with as much noise gives its bias, taken off.
 *
 * @param s the sweep
 * @param levels levels under the top, dB, at most 6
 * @returns undefined where the sweep is not noisy, or too coarse at its top to be smoothed
 * @source parametric bootstrap: Efron and Tibshirani, An Introduction to the Bootstrap (1993), 6.5 and 10; from memory. Coverage in docs/proof-fits.md
 */
export function noisyTop(s: Sweep, levels: readonly number[]): NoisyTop | undefined {
  const { frequencyHz: f, levelDb: y } = s;
  let top = 0;
  for (let i = 1; i < y.length; i++) if (y[i] > y[top]) top = i;
  const [from, to] = reach(y, top);
  if (to - from < 12) return undefined;
  const hz = f.slice(from, to);
  const smooth = smoothed(y.slice(from, to));
  if (Math.min(smooth.sigma, levelNoise(y.filter((v) => v > y[top] - 3))) < leastNoiseDb) return undefined;
  const best = cutOf(hz, smooth.values, levels);
  const twice = Array.from({ length: madeCount / 2 }, (_, k) => {
    const z = normalStream(1, `noisy top ${k}`, hz.length);
    return cutOf(hz, smooth.again(smooth.values.map((v, i) => v + smooth.sigma * z[i])), levels);
  });
  const made = Array.from({ length: madeCount }, (_, k) => cutOf(hz, smooth.draw(k, madeCount), levels));
  const told = (of: (c: Cut) => number | undefined): Told => {
    const all = made.map(of).filter((v): v is number => v !== undefined);
    const mean = all.reduce((t, v) => t + v, 0) / all.length;
    const deviation = Math.sqrt(all.reduce((t, v) => t + (v - mean) ** 2, 0) / Math.max(1, all.length - 1));
    const at = of(best) as number;
    const again = twice.map(of).filter((v): v is number => v !== undefined);
    // what is taken off is itself no better known than its size
    const bias = again.reduce((t, v) => t + v - at, 0) / Math.max(1, again.length);
    return { value: at - bias, u: Math.hypot(deviation, bias, s.resolutionHz / Math.sqrt(3)) };
  };
  const edges = new Map<number, { readonly low: Told; readonly high: Told; readonly width: Told }>();
  levels.forEach((level, k) => {
    if (!best.edges[k] || made.filter((m) => m.edges[k]).length < madeCount * 0.9) return;
    edges.set(level, {
      low: told((c) => c.edges[k]?.[0]),
      high: told((c) => c.edges[k]?.[1]),
      width: told((c) => c.edges[k] && c.edges[k][1] - c.edges[k][0]),
    });
  });
  const [peakDb, peakHz] = [told((c) => c.peakDb), told((c) => c.peakHz)];
  const mayBe = topReach(hz, smooth.values, best.peakHz, Math.SQRT2 * peakDb.u);
  return { peakDb, peakHz: { value: best.peakHz, u: Math.max(peakHz.u, mayBe) }, edges };
}
/**
 * Standard uncertainty of where a curve is highest: humps and flat tops that are lower by no more than their doubt may be the true one.
 *
 * @param f frequencies, Hz
 * @param y levels of the same length, dB
 * @param peakHz where it is highest as read, Hz
 * @param differenceDb standard uncertainty of the difference of two levels, dB
 * @returns Hz; 0 where no other point comes near
 * @source two levels differ beyond doubt from 1.96 standard uncertainties of their difference on; coverage in docs/proof-fits.md
 */
export function topReach(f: Float64Array, y: Float64Array, peakHz: number, differenceDb: number): number {
  const level = y.reduce((m, v) => Math.max(m, v), Number.NEGATIVE_INFINITY) - sure * differenceDb;
  return f.reduce((far, hz, i) => (y[i] >= level ? Math.max(far, Math.abs(hz - peakHz)) : far), 0) / sure;
}
/** Ends of the stretch about the top: to where means of three fall that far under the mean of three at the top, and a few points more. */
function reach(y: Float64Array, top: number): readonly [number, number] {
  const mean = (i: number): number => (y[Math.max(0, i - 1)] + y[i] + y[Math.min(y.length - 1, i + 1)]) / 3;
  const level = mean(top) - reachDb;
  let [from, to] = [0, y.length];
  while (from < top && mean(from) < level) from++;
  while (to > top + 1 && mean(to - 1) < level) to--;
  return [Math.max(0, from - 3), Math.min(y.length, to + 3)];
}
