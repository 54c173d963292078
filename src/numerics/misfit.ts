import { normalQuantile } from "./normal";

/** What a fit leaves of its readings, and what the readings were said to be good for. */
export interface MisfitAsk {
  /** readings less fit, in the order of time, frequency or place, so that a pattern shows */
  readonly residuals: ArrayLike<number>;
  /** standard deviation of one reading, one for all or one each, in the unit of the residuals; where absent the differences of neighbours tell it */
  readonly noise?: number | ArrayLike<number>;
  /** relative standard uncertainty of that noise; 0.2 where not said */
  readonly noiseDoubt?: number;
  /** how many parameters the readings had to tell */
  readonly parameters: number;
}
/** What comes of it, the same for every fit. */
export interface Misfit {
  /** the noise that the misses were measured by: what was stated, or what neighbours tell; 1 where it was stated one each */
  readonly noise: number;
  /** root of the sum of squares over that of the noise, per degree of freedom: 1 where the law holds and the noise is right */
  readonly timesNoise: number;
  /** whether neighbours miss the same way more than chance would once in two hundred times */
  readonly patterned: boolean;
  /** how many neighbours count as one: 1 where there is no pattern */
  readonly neighbours: number;
  /** by how much every standard uncertainty of the fit, worked out from the stated noise, is to be multiplied; at least 1 */
  readonly widenRatio: number;
  /** `widen`: intervals are widened and it is said; `law-fails`: the law does not hold, no value is taken from it */
  readonly verdict: "ok" | "widen" | "law-fails";
  /** whether a value outside the readings may be given: not where the law fails, and not where the misses have a pattern */
  readonly mayExtrapolate: boolean;
}

/** Misses of more than this many times the noise, its own doubt allowed for, are no noise: the law fails. House rule, no source. */
export const lawFailsAt = 3;
/** From here on the widening is told. House rule, no source. */
const toldFrom = 1.4;
/** One-sided chance of calling white noise a pattern, at each of at most three scales. */
const patternZ = normalQuantile(1 - 0.005 / 3);

/**
 * The one rule of every fit: what its misses say about its law and its intervals.
 *
 * Misses larger than the noise widen by their ratio. Neighbours that miss the same way are fewer readings than they look: the widening grows by the
 * root of how many count as one. Where the noise is not stated it comes from the differences of neighbours, which a slow pattern hardly touches, and
 * few degrees of freedom widen by Student's factor, as do few readings that count. A ratio above `lawFailsAt` says that the law does not hold.
 *
 * @param ask residuals, noise, parameters
 * @returns the verdict
 * @source Birge ratio: R. T. Birge, Phys. Rev. 40 (1932) 207, used so by CODATA; from memory. Noise by differences: J. von Neumann, Ann. Math. Stat. 12
 *   (1941) 367, from memory. Number of neighbours that count as one: C. J. Geyer, Statistical Science 7 (1992) 473, initial positive sequence, from
 *   memory. Rates are checked by simulation in misfit.property.test.ts
 */
export function judgeMisfit(ask: MisfitAsk): Misfit {
  const n = ask.residuals.length;
  const stated = ask.noise;
  const each = (i: number): number => (typeof stated === "number" ? stated : (stated as ArrayLike<number>)[i]);
  const r = Float64Array.from({ length: n }, (_, i) => ask.residuals[i] / (stated === undefined ? 1 : each(i) || 1e-300));
  const free = Math.max(1, n - ask.parameters);
  const size = Math.sqrt(r.reduce((s, v) => s + v * v, 0) / free);
  const own = stated === undefined ? noiseByDifferences(r) : 1;
  const timesNoise = own > 0 ? size / own : size > 0 ? Number.POSITIVE_INFINITY : 1;
  const patterned = isPatterned(r, ask.parameters);
  const counted = patterned ? together(r) : 1;
  // the fit has taken its own share of the pattern, so what is left of it looks shorter than it is
  const neighbours = patterned ? counted * (1 + Math.min(1, (3 * counted) / free)) : 1;
  const doubt = stated === undefined ? Math.sqrt(1.5 / Math.max(2, n)) : (ask.noiseDoubt ?? 0.2);
  const allowed = 1 + 2 * Math.hypot(doubt, Math.sqrt(1 / (2 * free)));
  const student = stated === undefined || patterned ? studentFactor(Math.max(1, free / neighbours)) : 1;
  const widenRatio = Math.max(1, timesNoise) * student * (patterned ? Math.max(1, Math.min(1, timesNoise) * Math.sqrt(neighbours)) : 1);
  const fails = timesNoise > lawFailsAt * allowed;
  return {
    noise: typeof stated === "number" ? stated : own,
    timesNoise,
    patterned,
    neighbours,
    widenRatio,
    verdict: fails ? "law-fails" : patterned || timesNoise > toldFrom ? "widen" : "ok",
    mayExtrapolate: !fails && !patterned,
  };
}

/** Half the mean square of neighbours' differences, rooted. */
function noiseByDifferences(r: Float64Array): number {
  let s = 0;
  for (let i = 1; i < r.length; i++) s += (r[i] - r[i - 1]) ** 2;
  return Math.sqrt(s / (2 * Math.max(1, r.length - 1)));
}
/** Mean product of entries so far apart, over the mean square. */
function correlation(r: Float64Array, apart: number): number {
  let [along, all] = [0, 0];
  for (let i = 0; i < r.length; i++) {
    all += r[i] * r[i];
    if (i >= apart) along += r[i] * r[i - apart];
  }
  return all > 0 ? along / all : 0;
}
/** Neighbours miss the same way: first correlation of the residuals, and of means of four and of sixteen. A fit turns it negative by about parameters over n. */
function isPatterned(r: Float64Array, parameters: number): boolean {
  const limit = Math.max(10, 1.5 * parameters);
  for (let part = r, scale = 0; scale < 3 && part.length >= limit; scale++, part = meansOfFour(part)) {
    if ((correlation(part, 1) + 1 / part.length) * Math.sqrt(part.length) > patternZ) return true;
  }
  return false;
}
const meansOfFour = (r: Float64Array): Float64Array =>
  Float64Array.from({ length: Math.floor(r.length / 4) }, (_, i) => (r[4 * i] + r[4 * i + 1] + r[4 * i + 2] + r[4 * i + 3]) / 4);
/** 1 + 2 times the sum of the correlations, as long as pairs of them stay positive and fall. */
function together(r: Float64Array): number {
  let sum = 1 + 2 * Math.max(0, correlation(r, 1));
  let last = Number.POSITIVE_INFINITY;
  for (let k = 2; k + 1 < r.length / 2; k += 2) {
    const pair = Math.min(last, correlation(r, k) + correlation(r, k + 1));
    if (pair <= 0) break;
    sum += 2 * pair;
    last = pair;
  }
  return sum;
}
/** 97.5 % point of Student's t over the normal one. Source: Cornish-Fisher expansion, Abramowitz and Stegun 26.7.5, from memory; exact values in the test. */
function studentFactor(free: number): number {
  if (free < 3) {
    const exact = [6.4829, 2.1953, 1.6237];
    const k = Math.min(1, Math.floor(free) - 1);
    return exact[k] * (exact[k + 1] / exact[k]) ** (free - 1 - k);
  }
  const z = 1.959964;
  const [z3, z5, z7] = [z ** 3, z ** 5, z ** 7];
  return (
    1 + ((z3 + z) / 4 / free + (5 * z5 + 16 * z3 + 3 * z) / 96 / free ** 2 + (3 * z7 + 19 * z5 + 17 * z3 - 15 * z) / 384 / free ** 3) / z
  );
}
