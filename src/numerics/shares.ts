import { backSubstitute, householderInPlace } from "./linear";
import { meanAndDeviation } from "./order";

/**
 * First-order share of the variance of a result that one input, or one correlated group, explains: the adjusted coefficient of
 * determination of a regression on functions of it alone.
 *
 * One input: a cubic in its value and six cosines of its rank, so that an even or wavy dependence is seen too (a cubic alone finds 0.03
 * where the Ishigami function has 0.44). A group: a cubic in each of its independent streams, added up.
 *
 * @param result draws of the result; entries that are not finite are left out
 * @param inputs draws of the input, or of each stream of the group; same length
 * @returns share between 0 and 1, not below 0
 * @source first-order (Sobol) index by regression, Saltelli et al., Global Sensitivity Analysis (2008), from memory; checked on closed forms
 */
export function firstOrderShare(result: Float64Array, inputs: readonly Float64Array[]): number {
  const rows = result.reduce((n, y) => n + (Number.isFinite(y) ? 1 : 0), 0);
  const waves = inputs.length === 1 ? 6 : 0;
  const cols = 1 + 3 * inputs.length + waves;
  if (rows < 4 * cols) return 0;
  const scaled = inputs.map((x) => {
    const { mean, deviation } = meanAndDeviation(x);
    return deviation > 0 ? x.map((v) => (v - mean) / deviation) : x.map(() => 0);
  });
  const rank = waves ? rankOf(inputs[0]) : undefined;
  const a = new Float64Array(rows * cols);
  const b = new Float64Array(rows);
  let row = 0;
  for (let i = 0; i < result.length; i++) {
    if (!Number.isFinite(result[i])) continue;
    let c = row * cols;
    a[c++] = 1;
    for (const x of scaled) {
      a[c++] = x[i];
      a[c++] = x[i] * x[i] - 1;
      a[c++] = x[i] * (x[i] * x[i] - 3);
    }
    for (let k = 1; k <= waves; k++) a[c++] = Math.cos(k * Math.PI * rank![i]);
    b[row++] = result[i];
  }
  const { deviation } = meanAndDeviation(b);
  if (!(deviation > 0)) return 0;
  const total = deviation ** 2 * (rows - 1);
  householderInPlace(a, b, rows, cols);
  backSubstitute(a, b, cols);
  let left = 0;
  for (let i = cols; i < rows; i++) left += b[i] * b[i];
  const adjusted = 1 - left / (rows - cols) / (total / (rows - 1));
  return Math.max(0, Math.min(1, adjusted));
}

function rankOf(x: Float64Array): Float64Array {
  const order = Array.from(x.keys()).sort((i, j) => x[i] - x[j]);
  const rank = new Float64Array(x.length);
  order.forEach((i, place) => {
    rank[i] = (place + 0.5) / x.length;
  });
  return rank;
}
