import { symmetricEigen } from "../../numerics/symmetric-eigen";
import type { DescribedStrip, Leaf } from "../../set/strip";

/**
 * Widens k Q of each can by moving coupling and both Q together: near critical coupling that leaves the width at -6 dB as it was. No leaf ends
 * up wider than it was beforehand.
 *
 * @param covariance of the leaves, of logarithms where they are logarithmic
 * @param doubts standard deviation of the logarithm of k Q to be added, by can
 * @source narrow-band law of two equal circuits: at k Q = 1 the width goes as the root of k over the root of Q
 */
export function widenProducts(
  leaves: readonly Leaf[],
  covariance: readonly (readonly number[])[],
  priorU: readonly number[],
  doubts: ReadonlyMap<string, number>,
): number[][] {
  const canOf = leaves.map((l) => /^strip\.(can\d+)\.(coupling|primaryQ|secondaryQ)$/.exec(l.path)?.[1]);
  const room = leaves.map((_, i) => Math.sqrt(Math.max(0, priorU[i] ** 2 - covariance[i][i])));
  // half of it by the coupling, half by the root of both Q
  const move = leaves.map((_, i) => Math.min((doubts.get(canOf[i] ?? "") ?? 0) / 2, ...room.filter((__, j) => canOf[j] === canOf[i])));
  return covariance.map((row, i) => row.map((v, j) => (canOf[i] && canOf[i] === canOf[j] ? v + move[i] * move[j] : v)));
}

/**
 * k sqrt(Q1 Q2) of each can with its relative standard uncertainty before and after: a sweep tells it better than its parts.
 *
 * @param values of the leaves
 * @param covariance of the leaves, of logarithms where they are logarithmic
 * @param priorU standard uncertainties beforehand, in the same order and kind
 * @returns a row a can: value, relative standard uncertainty after and before
 * @source propagation of uncertainty to first order with covariances, JCGM 100:2008 5.2.2
 */
export function combinations(
  strip: DescribedStrip,
  leaves: readonly Leaf[],
  values: readonly number[],
  covariance: readonly (readonly number[])[],
  priorU: readonly number[],
) {
  return strip.cans.flatMap((can, k) => {
    const terms = [
      ["coupling", 1],
      ["primaryQ", 0.5],
      ["secondaryQ", 0.5],
    ] as const;
    const at = terms.map(([name, power]) => ({ i: leaves.findIndex((l) => l.path === `strip.can${k + 1}.${name}`), power }));
    if (at.some((t) => t.i < 0)) return [];
    const after = Math.sqrt(at.reduce((s, a) => s + at.reduce((r, b) => r + a.power * b.power * covariance[a.i][b.i], 0), 0));
    const before = Math.sqrt(at.reduce((s, a) => s + (a.power * priorU[a.i]) ** 2, 0));
    return [
      { name: `k Q of ${can.label}`, value: at.reduce((s, t) => s * values[t.i] ** t.power, 1), beforeRatio: before, afterRatio: after },
    ];
  });
}

/**
 * How many independent directions are known to better than half of before: eigenvalues below 1/4 of the whitened covariance.
 *
 * @param covariance n by n
 * @param priorU standard uncertainties beforehand, n
 * @returns a count, 0 to n
 * @source eigenvalues of the covariance in units of the prior; a quarter of the variance is half of the uncertainty (house rule)
 */
export function directions(covariance: readonly (readonly number[])[], priorU: readonly number[]): number {
  return symmetricEigen(covariance.map((row, i) => row.map((v, j) => v / (priorU[i] * priorU[j])))).values.filter((v) => v < 0.25).length;
}
