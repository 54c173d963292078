/** What a measurement is expected to leave of what is not known about a value, before anybody has made it. */

/** Variance of a value as it stands, and as it is expected to be once something was measured; both in the square of its unit. */
export interface Shrinking {
  readonly before: number;
  readonly after: number;
}
/**
 * Part of a variance that a measurement is expected to remove.
 *
 * @param s before and after
 * @returns 0 to 1
 * @source definition
 */
export const shareRemoved = ({ before, after }: Shrinking): number => (before > 0 ? Math.max(0, Math.min(1, 1 - after / before)) : 0);

/**
 * A value that is linear in what is not known, and a measurement that is: what is left does not hang on what the measurement will show.
 *
 * @param covariance of the n unknowns, row-major, n by n
 * @param slope of the value by each unknown, n
 * @param seenBy slope of what is measured by each unknown, n
 * @param noise variance of the measurement's own error
 * @returns variances
 * @source conditional normal law, textbook: g'Sg less (g'Sh)^2 / (h'Sh + r)
 */
export function linearShrinking(
  covariance: ArrayLike<number>,
  slope: ArrayLike<number>,
  seenBy: ArrayLike<number>,
  noise: number,
): Shrinking {
  const n = slope.length;
  let [before, both, seen] = [0, 0, noise];
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const c = covariance[i * n + j];
      before += slope[i] * c * slope[j];
      both += slope[i] * c * seenBy[j];
      seen += seenBy[i] * c * seenBy[j];
    }
  return { before, after: seen > 0 ? Math.max(0, before - both ** 2 / seen) : before };
}

/**
 * One unknown of a value measured, by the part of the value's variance that it explains.
 *
 * @param share of the variance that the unknown explains, 0 to 1
 * @param u standard uncertainty of the unknown as it stands
 * @param measuredU standard uncertainty of the measurement
 * @returns part of the value's variance that the measurement is expected to remove, 0 to 1
 * @source conditional normal law, textbook: what the unknown explains, times u^2 / (u^2 + measuredU^2)
 */
export const shareByMeasuring = (share: number, u: number, measuredU: number): number =>
  u > 0 ? share * (u ** 2 / (u ** 2 + measuredU ** 2)) : 0;
