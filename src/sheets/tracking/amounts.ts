import { backSubstitute, choleskyFactor, householderInPlace, inverseOfNormal } from "../../numerics/linear";

/** Amounts by least squares, each with how far off it may be before any reading. */
interface Found {
  readonly at: Float64Array;
  readonly u: Float64Array;
  /** lower factor of their covariance */
  readonly factor: Float64Array;
  /** misses of the readings, each in its own standard deviation */
  readonly misses: Float64Array;
}
interface Reading {
  readonly value: number;
  readonly u: number;
}
const mostRounds = 5;
/** A round that moves every amount by less than this of its standard deviation beforehand is the last. */
const settled = 1e-11;
/** Slopes are taken over this of the same. */
const stepShare = 1e-3;
/**
 * Amounts from readings: linear Bayesian least squares, a few rounds.
 *
 * @param prior how far off each may be before any reading, one standard deviation
 * @param read what was read, and its standard deviation
 * @param model what the amounts would make of each reading
 * @returns amounts with their doubts; undefined where the circuit can't be worked out there
 * @source least squares about the circuit with what is known beforehand as rows above the readings
 */
export function found(
  prior: readonly number[],
  read: readonly Reading[],
  model: (at: Float64Array, i: number) => number,
): Found | undefined {
  const k = prior.length;
  const rows = k + read.length;
  const d = new Float64Array(k);
  const design = new Float64Array(rows * k);
  const target = new Float64Array(rows);
  const settle = (): boolean => {
    householderInPlace(design, target, rows, k);
    const step = backSubstitute(design, target, k);
    let most = 0;
    for (let i = 0; i < k; i++) {
      d[i] = Math.max(-0.9, d[i] + step[i]);
      most = Math.max(most, Math.abs(step[i]) / prior[i]);
    }
    return most < settled;
  };
  for (let round = 0; round < mostRounds; round++) {
    rowsAt(d, prior, read, model, { design, target });
    if (settle()) break;
  }
  const spread = inverseOfNormal(design, k);
  const misses = Float64Array.from(read, (r, i) => (r.value - model(d, i)) / r.u);
  if (!spread || !misses.every(Number.isFinite) || !d.every(Number.isFinite)) return undefined;
  return {
    at: d,
    u: Float64Array.from(prior, (_, i) => Math.sqrt(spread[i * (k + 1)])),
    factor: choleskyFactor(spread, k) ?? new Float64Array(k * k),
    misses,
  };
}
/** One row for what is known of each amount beforehand, one for each reading, both over their standard deviations. */
function rowsAt(
  d: Float64Array,
  prior: readonly number[],
  read: readonly Reading[],
  model: (at: Float64Array, i: number) => number,
  { design, target }: { readonly design: Float64Array; readonly target: Float64Array },
): void {
  const k = prior.length;
  design.fill(0, 0, k * k);
  for (let i = 0; i < k; i++) {
    design[i * k + i] = 1 / prior[i];
    target[i] = -d[i] / prior[i];
  }
  for (let n = 0; n < read.length; n++) {
    const { value, u } = read[n];
    const base = model(d, n);
    target[k + n] = (value - base) / u;
    for (let i = 0; i < k; i++) {
      const step = stepShare * prior[i];
      const here = d[i];
      d[i] = here + step;
      design[(k + n) * k + i] = (model(d, n) - base) / step / u;
      d[i] = here;
    }
  }
}
