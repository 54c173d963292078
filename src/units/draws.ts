import { choleskyFactor } from "../numerics/linear";
import { normalStream, uniformStream } from "../numerics/random";
import type { Quantity } from "./quantity";

/**
 * What a fit appends: values with their covariance. Nothing in it is ever edited; a newer one supersedes.
 * `logarithmic[i]` says that the i-th quantity is positive and its covariance entry is that of its logarithm.
 */
export interface Estimate {
  readonly id: string;
  readonly names: readonly string[];
  readonly values: readonly number[];
  readonly logarithmic: readonly boolean[];
  readonly covariance: readonly (readonly number[])[];
  readonly fromReadings: readonly string[];
  readonly model: string;
}

/** The seed and number of draws that an answer names, so that it can be had again. */
export interface Sampling {
  readonly seed: number;
  readonly draws: number;
}

/**
 * Draws of one quantity from its own stream, by the distribution that its spread states.
 *
 * A positive quantity with a normal spread is drawn in its logarithm, with the same mean value and standard uncertainty to first order,
 * so that no draw is negative.
 *
 * @param q quantity
 * @param path its name, which chooses the stream
 * @param sampling seed and number of draws
 * @param positive whether it can only be above 0
 * @returns length `draws`, in the quantity's unit
 * @source JCGM 101:2008 6.4.2 (rectangular), 6.4.5 (triangular), 6.4.7 (normal)
 */
export function drawQuantity(q: Pick<Quantity, "value" | "spread">, path: string, sampling: Sampling, positive = false): Float64Array {
  const { value, spread } = q;
  switch (spread.shape) {
    case "exact":
      return new Float64Array(sampling.draws).fill(value);
    case "normal": {
      const z = normalStream(sampling.seed, path, sampling.draws);
      if (!positive || !(value > 0)) return z.map((x) => value + spread.u * x);
      const s = Math.sqrt(Math.log1p((spread.u / value) ** 2));
      return z.map((x) => value * Math.exp(s * x));
    }
    case "rectangular":
      return uniformStream(sampling.seed, path, sampling.draws).map((p) => value + spread.half * (2 * p - 1));
    case "triangular":
      return uniformStream(sampling.seed, path, sampling.draws).map(
        (p) => value + spread.half * (p < 0.5 ? Math.sqrt(2 * p) - 1 : 1 - Math.sqrt(2 - 2 * p)),
      );
  }
}

/**
 * Draws of every quantity of an estimate together, correlated as its covariance says.
 *
 * @param estimate values and covariance
 * @param sampling seed and number of draws
 * @returns one array of length `draws` for each name; the standard-normal streams behind them under `streams`
 * @throws {RangeError} when the covariance is not positive semidefinite
 * @source JCGM 101:2008 6.4.8 and annex C.5 (multivariate normal by Cholesky factor)
 */
export function drawEstimate(
  estimate: Estimate,
  sampling: Sampling,
): { readonly byName: ReadonlyMap<string, Float64Array>; readonly streams: readonly Float64Array[] } {
  const n = estimate.names.length;
  const factor = choleskyFactor(estimate.covariance.flat(), n);
  if (!factor) throw new RangeError(`estimate ${estimate.id}: covariance is not positive semidefinite`);
  const streams = estimate.names.map((name) => normalStream(sampling.seed, name, sampling.draws));
  const byName = new Map<string, Float64Array>();
  for (let i = 0; i < n; i++) {
    const out = new Float64Array(sampling.draws);
    for (let k = 0; k <= i; k++) {
      const l = factor[i * n + k];
      if (l !== 0) for (let d = 0; d < out.length; d++) out[d] += l * streams[k][d];
    }
    const value = estimate.values[i];
    for (let d = 0; d < out.length; d++) out[d] = estimate.logarithmic[i] ? value * Math.exp(out[d]) : value + out[d];
    byName.set(estimate.names[i], out);
  }
  return { byName, streams };
}
