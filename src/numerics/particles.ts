import { uniformStream } from "./random";

export interface Particle {
  readonly at: Float64Array;
  readonly logLikelihood: number;
}
export interface ParticleAsk {
  /** ends of each unknown, flat between them beforehand */
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** so many of the first unknowns stand in rising order */
  readonly rising?: number;
  /** logarithm of the likelihood; -Infinity where impossible */
  readonly logLikelihood: (at: Float64Array) => number;
  readonly count: number;
  readonly seed: number;
  readonly name: string;
  /** sweeps of moves after each step, and after the last */
  readonly moves?: number;
}

/**
 * Draws from what readings leave possible of a law's unknowns, however bent or many-peaked that is.
 *
 * Particles start from flat priors and are brought to the likelihood in steps that keep half of them effective; after each step they are resampled and
 * moved by the difference of two others.
 *
 * @param ask ends, likelihood, how many particles, seed
 * @returns particles of equal weight
 * @source annealed importance resampling: Del Moral, Doucet, Jasra, J. R. Stat. Soc. B 68 (2006) 411; moves: ter Braak, Statistics and Computing 16
 *   (2006) 239; both from memory, checked on closed forms in particles.test.ts
 */
export function drawParticles(ask: ParticleAsk): Particle[] {
  const { low, high, count, rising = 0 } = ask;
  let stage = 0;
  const uniforms = (n: number): Float64Array => uniformStream(ask.seed, `${ask.name} ${stage++}`, n);
  let all: Particle[] = Array.from({ length: count }, () => {
    const at = uniforms(low.length).map((v, d) => low[d] + v * (high[d] - low[d]));
    at.subarray(0, rising).sort();
    return { at, logLikelihood: ask.logLikelihood(at) };
  });
  let power = 0;
  while (power < 1) {
    const like = Float64Array.from(all, (p) => p.logLikelihood);
    const step = nextStep(like, power);
    all = resampled(like, step, uniforms(1)[0]).map((k) => all[k]);
    power += step;
    const sweeps = (ask.moves ?? 4) * (power >= 1 ? 3 : 1);
    for (let s = 0; s < sweeps; s++) moveAll(ask, all, power, uniforms(count * perMove));
  }
  return all;
}

/** Largest step of the power that keeps half the particles effective. */
function nextStep(like: Float64Array, power: number): number {
  const top = like.reduce((m, v) => Math.max(m, v), Number.NEGATIVE_INFINITY);
  const effective = (step: number): number => {
    let [sum, square] = [0, 0];
    for (const v of like) {
      const w = Math.exp(step * (v - top));
      sum += w;
      square += w * w;
    }
    return (sum * sum) / square / like.length;
  };
  let [low, high] = [0, 1 - power];
  if (effective(high) >= 0.5) return high;
  for (let i = 0; i < 50; i++) {
    const mid = (low + high) / 2;
    if (effective(mid) >= 0.5) low = mid;
    else high = mid;
  }
  return Math.max(low, 1e-12);
}
/** Indices by systematic resampling. */
function resampled(like: Float64Array, step: number, u: number): number[] {
  const top = like.reduce((m, v) => Math.max(m, v), Number.NEGATIVE_INFINITY);
  const weights = like.map((v) => Math.exp(step * (v - top)));
  const each = weights.reduce((s, w) => s + w, 0) / like.length;
  const out: number[] = [];
  let passed = 0;
  for (let k = 0; k < like.length && out.length < like.length; k++) {
    passed += weights[k];
    while (out.length < like.length && passed > (out.length + u) * each) out.push(k);
  }
  while (out.length < like.length) out.push(like.length - 1);
  return out;
}
const perMove = 12;
/** One move of every particle by the difference of two others, now and then a full step. */
function moveAll(ask: ParticleAsk, all: Particle[], power: number, u: Float64Array): void {
  const { low, high, rising = 0 } = ask;
  for (let k = 0; k < all.length; k++) {
    const old = all[k];
    const roll = u.subarray(perMove * k, perMove * (k + 1));
    const a = all[Math.floor(roll[0] * all.length)].at;
    const b = all[Math.floor(roll[1] * all.length)].at;
    const reach = roll[2] < 0.15 ? 1 : (1.2 + roll[3]) / Math.sqrt(2 * low.length);
    const shake = roll[2] > 0.8 ? 5e-3 : 5e-5;
    const at = old.at.map((v, d) => v + reach * (a[d] - b[d]) + shake * (roll[4 + (d % 7)] - 0.5) * (high[d] - low[d]));
    if (at.some((v, d) => !(v >= low[d] && v <= high[d]) || (d > 0 && d < rising && v < at[d - 1]))) continue;
    const logLikelihood = ask.logLikelihood(at);
    if (Math.log(roll[11]) < power * (logLikelihood - old.logLikelihood)) all[k] = { at, logLikelihood };
  }
}
