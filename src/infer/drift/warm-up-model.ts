import { posterior, transposedSolveInPlace } from "../../numerics/bayes-linear";
import { type Pace, slowestS } from "./warm-up";

const fastestS = 30;
/** Least power of a stretched warm-up. Assumed. */
const leastPower = 0.35;
/** Powers of a tail: less goes on for days, more is an exponential as far as a log tells. Assumed. */
const tailPowers = [0.8, 3] as const;

type Shape = readonly Pace[];
type Ends = readonly [low: number, high: number];
const tau: Ends = [Math.log(fastestS), Math.log(slowestS)];
/** A law of warm-ups by its unknowns, without the noise, which stands last. */
export interface WarmUpLaw {
  readonly shape: (at: Float64Array) => Shape;
  readonly ends: readonly Ends[];
  /** how many time constants stand in rising order */
  readonly rising: number;
}
const fast = (at: Float64Array): Pace => ({ tauS: Math.exp(at[0]), power: 1 });
/** Three time constants, or a fast one and a stretched one, or a fast one and a tail. */
export const laws: readonly WarmUpLaw[] = [
  { shape: (at) => [0, 1, 2].map((k) => ({ tauS: Math.exp(at[k]), power: 1 })), ends: [tau, tau, tau], rising: 3 },
  { shape: (at) => [fast(at), { tauS: Math.exp(at[1]), power: at[2] }], ends: [tau, tau, [leastPower, 1]], rising: 2 },
  { shape: (at) => [fast(at), { tauS: Math.exp(at[1]), power: at[2], tail: true }], ends: [tau, tau, tailPowers], rising: 2 },
];
/**
 * Whether the time constants of different bodies are at least twice each other. Assumed, no source.
 *
 * @param at unknowns of a law, logarithms of seconds first
 * @param count how many of them are time constants
 * @returns true where they are
 * @source house rule
 */
export function farApart(at: Float64Array, count: number): boolean {
  for (let k = 1; k < count; k++) if (at[k] - at[k - 1] < Math.LN2) return false;
  return true;
}

/** What of a part is left at all times of a log. */
function putLeft({ tauS, power, tail }: Pace, timeS: Float64Array, into: Float64Array): void {
  if (tail) for (let i = 0; i < into.length; i++) into[i] = (1 + timeS[i] / tauS) ** -power;
  else if (power === 1) for (let i = 0; i < into.length; i++) into[i] = Math.exp(-timeS[i] / tauS);
  else for (let i = 0; i < into.length; i++) into[i] = Math.exp(-((timeS[i] / tauS) ** power));
}

/**
 * Sum of products.
 *
 * @param a any length
 * @param b the same length
 * @returns their product
 * @source definition
 */
export function dot(a: Float64Array, b: Float64Array): number {
  let s = 0;
  for (let i = 0; i < a.length; i++) s += a[i] * b[i];
  return s;
}

/** One law at one place of its unknowns: amplitudes as the readings have them. */
interface Solved {
  readonly parts: Shape;
  /** prior size of end, amplitudes and what was logged besides */
  readonly size: Float64Array;
  readonly found: ReturnType<typeof posterior>;
}
/** Readings of a log, and what moves them besides heat. */
interface Readings {
  readonly timeS: Float64Array;
  readonly hz: Float64Array;
  readonly besides: readonly Float64Array[];
}
/**
 * A log ready for its amplitudes to be solved at any time constants, and what those leave of it.
 *
 * @param log times in s, readings in Hz, columns of the same length
 * @returns how it is solved; `solve` overwrites the columns that `rest` reads
 * @source linear Gaussian model with zero-mean priors (Rasmussen and Williams 2.1)
 */
export function modelOf(log: Readings) {
  const { timeS, hz, besides } = log;
  const n = timeS.length;
  const mean = hz.reduce((s, v) => s + v, 0) / n;
  const y = hz.map((v) => v - mean);
  const range = y.reduce((m, v) => Math.max(m, v), 0) - y.reduce((m, v) => Math.min(m, v), 0) || 1e-6;
  const rough = Math.sqrt(y.reduce((s, v, i) => s + (i > 0 ? (v - y[i - 1]) ** 2 : 0), 0) / (2 * n)) || 1e-9;
  const columns: Float64Array[] = Array.from({ length: 4 }, () => new Float64Array(n));
  columns[0].fill(1);
  const square = dot(y, y);
  const sizes = besides.map((b) => range / (b.reduce((m, v) => Math.max(m, Math.abs(v)), 0) || 1));
  const used = (parts: Shape): readonly Float64Array[] => [...columns.slice(0, 1 + parts.length), ...besides];
  const solve = (law: WarmUpLaw, at: Float64Array): Solved => {
    const parts = law.shape(at);
    for (let k = 0; k < parts.length; k++) putLeft(parts[k], timeS, columns[1 + k]);
    const own = used(parts);
    const cols = own.length;
    const weight = Math.exp(-2 * at[at.length - 1]);
    const matrix = new Float64Array(cols * cols);
    const vector = new Float64Array(cols);
    for (let j = 0; j < cols; j++) {
      for (let k = 0; k <= j; k++) matrix[j * cols + k] = matrix[k * cols + j] = weight * dot(own[j], own[k]);
      vector[j] = weight * dot(own[j], y);
    }
    const size = Float64Array.from([30 * range, ...parts.map(() => range), ...sizes]);
    const normal = { size: cols, matrix, vector, square: weight * square, logVariance: -n * Math.log(weight) };
    return { parts, size, found: posterior(normal, size) };
  };
  /** what the amplitudes leave of the readings, moved by `z` of their own doubt */
  const amplitudes = ({ size, found }: Solved, z: Float64Array): Float64Array => {
    if (!found) return size.map(() => 0);
    const x = z.slice();
    transposedSolveInPlace(found.factor, x, size.length);
    return x.map((v, j) => size[j] * (v + found.mean[j]));
  };
  /** readings less the best amplitudes of the shapes solved last, whose columns still stand */
  const rest = (s: Solved): Float64Array => {
    const x = amplitudes(s, new Float64Array(s.size.length));
    const own = used(s.parts);
    return y.map((v, i) => own.reduce((r, c, j) => r - x[j] * c[i], v));
  };
  const noise: readonly [number, number] = [Math.log(Math.max(1e-6 * range, rough / 300)), Math.log(Math.max(rough * 3, range))];
  return { n, mean, noise, solve, amplitudes, rest };
}
