import { normalQuantile } from "./normal";

/** A range that holds the true value with at least the confidence that was asked for. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * The score interval of a proportion: those p at which a test by the normal law does not refuse what was counted.
 *
 *     (k + z²/2 ± z sqrt(k (n - k) / n + z²/4)) / (n + z²)
 *
 * @param hitCount how many were hit, 0 to `ofCount`
 * @param ofCount how many were looked at, above 0
 * @param confidence such as 0.95
 * @returns the interval, within 0 to 1
 * @source Wilson, J. Am. Stat. Assoc. 22 (1927) 209
 */
export function proportionInterval(hitCount: number, ofCount: number, confidence: number): Interval {
  const z = normalQuantile((1 + confidence) / 2);
  const middle = hitCount + (z * z) / 2;
  const half = z * Math.sqrt((hitCount * (ofCount - hitCount)) / ofCount + (z * z) / 4);
  const at = (x: number): number => Math.min(1, Math.max(0, x / (ofCount + z * z)));
  // at the ends the formula is exact, and rounding must not say less
  return { low: hitCount === 0 ? 0 : at(middle - half), high: hitCount === ofCount ? 1 : at(middle + half) };
}

/**
 * Which ordered values hold the median of what they were drawn from, whatever its law: the r-th smallest and the r-th largest, r as large as the confidence
 * allows. The median is missed where fewer than r of n fall on one side of it, each with a chance of one half.
 *
 *     2 sum(i < r) C(n, i) / 2^n <= 1 - confidence
 *
 * @param ofCount how many values, whole
 * @param confidence such as 0.95
 * @returns r, from 1; undefined where so few values hold it with no such confidence: below 6 at 0.95
 * @source David and Nagaraja, Order Statistics, 3rd edition 2003, section 7.1 (sign-test interval)
 */
export function medianRank(ofCount: number, confidence: number): number | undefined {
  const missed = (1 - confidence) / 2;
  let [rank, sum] = [0, 0];
  // in logarithms, since 2^-n leaves the numbers at about a thousand values
  let logTerm = -ofCount * Math.LN2;
  while (rank < ofCount / 2) {
    sum += Math.exp(logTerm);
    if (sum > missed) break;
    logTerm += Math.log((ofCount - rank) / (rank + 1));
    rank++;
  }
  return rank > 0 ? rank : undefined;
}
