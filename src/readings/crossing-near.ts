/**
 * Where a curve crosses a level between two neighbouring points: on the cubic through those two and the next on either side. A straight line would lie
 * inside of a curve that bends over, by an eighth of its second difference.
 *
 * @param f frequencies, in order, Hz
 * @param y levels of the same length, dB
 * @param i index of a point at or below the level, or above it
 * @param j index of its neighbour on the other side of the level
 * @param level dB
 * @returns Hz, between the two
 * @source Lagrange's interpolation; straight where there is no further point on a side
 */
export function crossingNear(f: Float64Array, y: Float64Array, i: number, j: number, level: number): number {
  const first = Math.min(i, j) - 1;
  const [fi, fj, rises] = [f[i], f[j], y[j] > y[i]];
  if (first < 0 || first + 3 >= y.length) return fi + ((level - y[i]) / (y[j] - y[i])) * (fj - fi);
  const at = (hz: number): number => {
    let sum = 0;
    for (let a = first; a < first + 4; a++) {
      let part = y[a];
      for (let b = first; b < first + 4; b++) if (b !== a) part *= (hz - f[b]) / (f[a] - f[b]);
      sum += part;
    }
    return sum;
  };
  let [below, above] = rises ? [fi, fj] : [fj, fi];
  // to a ten-thousandth of the step
  for (let k = 0; k < 14; k++) {
    const middle = (below + above) / 2;
    if (at(middle) > level) above = middle;
    else below = middle;
  }
  return (below + above) / 2;
}
