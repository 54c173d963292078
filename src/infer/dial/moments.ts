import { householderInPlace } from "../../numerics/linear";
import type { Part } from "./fitted";
import { dialTerms } from "./scaling";

/**
 * Mean and covariance of a law's coefficients over all parts of a fit, the covariance as a root: formed as a matrix it would lose small doubts to rounding.
 *
 * @param parts the fit's parts, their weights together 1
 * @returns mean, length `dialTerms`; R, `dialTerms` by `dialTerms`, row-major, upper, with covariance RtR
 * @source law of total variance; R by Householder reflections of the parts' own roots and of how far each mean lies off
 */
export function momentsOf(parts: readonly Part[]): { readonly mean: Float64Array; readonly root: Float64Array } {
  const n = dialTerms;
  const mean = new Float64Array(n);
  for (const p of parts) for (let i = 0; i < n; i++) mean[i] += p.weight * p.size[i] * p.mean[i];
  const rowsCount = parts.length * (n + 1);
  const stacked = new Float64Array(rowsCount * n);
  for (const [k, p] of parts.entries()) {
    const block = stacked.subarray(k * (n + 1) * n, (k + 1) * (n + 1) * n);
    invertLower(p.factor, block, n);
    const share = Math.sqrt(p.weight);
    for (let i = 0; i < n; i++) for (let j = 0; j <= i; j++) block[i * n + j] *= share * p.size[j];
    for (let j = 0; j < n; j++) block[n * n + j] = share * (p.size[j] * p.mean[j] - mean[j]);
  }
  householderInPlace(stacked, new Float64Array(rowsCount), rowsCount, n);
  const root = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = i; j < n; j++) root[i * n + j] = stacked[i * n + j];
  return { mean, root };
}

/** Writes the inverse of a lower factor into the first n rows of a block. */
function invertLower(l: Float64Array, into: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) {
      let s = 0;
      for (let k = j; k < i; k++) s -= l[i * n + k] * into[k * n + j];
      into[i * n + j] = s / l[i * n + i];
    }
    into[i * n + i] = 1 / l[i * n + i];
  }
}
