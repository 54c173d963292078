/**
 * Arithmetic mean and sample standard deviation (n - 1).
 *
 * @param values at least two numbers
 * @returns mean and deviation, in the values' unit
 * @source JCGM 100:2008 4.2.1 and 4.2.2
 */
export function meanAndDeviation(values: ArrayLike<number>): { mean: number; deviation: number } {
  const n = values.length;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i];
  const about = sum / Math.max(1, n);
  // what is left over of the mean, and of the squares for its sake
  let [rest, squares] = [0, 0];
  for (let i = 0; i < n; i++) {
    const d = values[i] - about;
    rest += d;
    squares += d * d;
  }
  const left = rest / Math.max(1, n);
  return { mean: about + left, deviation: Math.sqrt(Math.max(0, squares - left * rest) / Math.max(1, n - 1)) };
}
