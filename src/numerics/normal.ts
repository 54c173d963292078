/**
 * Distribution function of the standard normal, to 1.5e-7: enough for chances down to a hundredth of a percent.
 *
 * @param x standard deviations from the mean
 * @returns chance of lying below, 0 to 1
 * @source Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26; checked with table 26.1
 */
export function normalCdf(x: number): number {
  const z = Math.abs(x) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * z);
  const tail = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) * Math.exp(-z * z);
  return x >= 0 ? 1 - tail / 2 : tail / 2;
}
