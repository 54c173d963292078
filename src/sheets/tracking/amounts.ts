import { backSubstitute, choleskyFactor, householderInPlace, inverseOfNormal } from "../../numerics/linear";

/** Amounts by least squares, each with what it may be off by beforehand. */
interface Found {
  readonly at: readonly number[];
  readonly u: readonly number[];
  /** lower factor of their covariance */
  readonly factor: Float64Array;
  /** misses of the readings, each in its own standard deviation */
  readonly misses: readonly number[];
}
interface Reading {
  readonly value: number;
  readonly u: number;
}
/**
 * Amounts from readings: linear Bayesian least squares, a few rounds.
 *
 * @param prior what each may be off by beforehand, one standard deviation
 * @param read what was read, and its standard deviation
 * @param model what the amounts would make of each reading
 * @source least squares about the circuit with what is known beforehand as rows above the readings
 */
export function found(
  prior: readonly number[],
  read: readonly Reading[],
  model: (at: readonly number[], i: number) => number,
): Found | undefined {
  const k = prior.length;
  const rows = k + read.length;
  let d: number[] = prior.map(() => 0);
  let covariance: Float64Array | undefined;
  for (let round = 0; round < 5; round++) {
    const design = new Float64Array(rows * k);
    const target = new Float64Array(rows);
    prior.forEach((p, i) => {
      design[i * k + i] = 1 / p;
      target[i] = -d[i] / p;
    });
    read.forEach((r, n) => {
      const base = model(d, n);
      target[k + n] = (r.value - base) / r.u;
      for (let i = 0; i < k; i++) {
        const more = d.map((v, j) => (j === i ? v + 1e-3 * prior[i] : v));
        design[(k + n) * k + i] = (model(more, n) - base) / (1e-3 * prior[i]) / r.u;
      }
    });
    householderInPlace(design, target, rows, k);
    const step = backSubstitute(design, target, k);
    d = d.map((v, i) => Math.max(-0.9, v + step[i]));
    covariance = inverseOfNormal(design, k);
  }
  const misses = read.map((r, n) => (r.value - model(d, n)) / r.u);
  if (!covariance || [...misses, ...d].some((v) => !Number.isFinite(v))) return undefined;
  const spread = covariance;
  return {
    at: d,
    u: prior.map((_, i) => Math.sqrt(spread[i * (k + 1)])),
    factor: choleskyFactor(spread, k) ?? new Float64Array(k * k),
    misses,
  };
}
