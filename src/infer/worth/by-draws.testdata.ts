import type { Shrinking } from "./doubt";

/** Fewer draws than this about an outcome, counted by their weights, say nothing of what it leaves. */
const leastAbout = 12;
const gauss = [
  [-1.7320508075688772, 1 / 6],
  [0, 2 / 3],
  [1.7320508075688772, 1 / 6],
] as const;
/**
 * Any value and any measurement, by draws of both: the variance that is left, averaged over what the measurement may show.
 *
 * @param value of each draw
 * @param seen what the measurement would show of each draw without its error
 * @param u standard deviation of the measurement's own error; one so small that too few draws lie within it counts as larger
 * @returns variances
 * @source Bayes' rule, draws weighed by the normal law of the error, which is taken by Gauss-Hermite; variance of weighted draws by its unbiased estimate
 */
export function shrinkingByDraws(value: ArrayLike<number>, seen: ArrayLike<number>, u: number): Shrinking {
  const n = value.length;
  const of = (x: ArrayLike<number>): { mean: number; variance: number } => {
    let mean = 0;
    for (let i = 0; i < n; i++) mean += x[i] / n;
    let variance = 0;
    for (let i = 0; i < n; i++) variance += (x[i] - mean) ** 2 / (n - 1);
    return { mean, variance };
  };
  const before = of(value).variance;
  const sd = Math.max(u, (leastAbout / (Math.SQRT2 * n)) * Math.sqrt(of(seen).variance));
  if (!(sd > 0)) return { before, after: before };
  let after = 0;
  const stride = Math.max(1, Math.floor(n / 400));
  let count = 0;
  for (let j = 0; j < n; j += stride) {
    count++;
    for (const [z, w] of gauss) after += w * varianceAbout(value, seen, seen[j] + z * sd, sd);
  }
  return { before, after: Math.min(before, after / count) };
}
function varianceAbout(value: ArrayLike<number>, seen: ArrayLike<number>, y: number, sd: number): number {
  let [sum, squares, first, second] = [0, 0, 0, 0];
  const from = value[0];
  for (let i = 0; i < value.length; i++) {
    const w = Math.exp(-0.5 * ((y - seen[i]) / sd) ** 2);
    const x = value[i] - from;
    sum += w;
    squares += w * w;
    first += w * x;
    second += w * x * x;
  }
  const mean = first / sum;
  const alone = squares / sum ** 2;
  return alone < 0.99 ? Math.max(0, second / sum - mean ** 2) / (1 - alone) : 0;
}
