import { uniformStream } from "../../numerics/random";
import { type Conversion, oscillatorHz } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";

const subsetsCount = 400;
const subsetSize = 4;

/**
 * Points that a cubic through random few of them fits, but for a quarter.
 *
 * @param points zero beats
 * @param among places of those to choose from
 * @param c conversion of the band
 * @param readingNoise standard deviation of a reading, divisions
 * @returns places of those that lie near the cubic which fits three quarters of them best
 * @source trimmed least squares over random subsets, Rousseeuw (1984)
 */
export function straightOnes(points: readonly DialPoint[], among: readonly number[], c: Conversion, readingNoise: number): number[] {
  const readings = among.map((i) => points[i].reading);
  const [low, high] = [Math.min(...readings), Math.max(...readings)];
  const x = readings.map((r) => (2 * r - low - high) / (high - low || 1));
  const best = trimmedBest(x, linked(points, among, c));
  if (!best) return [...among];
  // z runs over 2 along the scale: what a division is worth, and what a cubic may miss by
  const division = 2 / (high - low || 1);
  const limit = Math.max(12 * Math.sqrt(best.meanSquare), 8 * readingNoise * division);
  return among.filter((_, i) => Math.abs(best.residuals[i]) <= limit);
}
/** The oscillator's frequency in each coordinate that a dial may be a cubic in, -1 to 1 along the points. */
function linked(points: readonly DialPoint[], among: readonly number[], c: Conversion): number[][] {
  // a straight-line-frequency capacitor is a cubic in f, one of straight-line capacitance in 1/f^2: each has its turn
  return [(f: number) => f ** -2, Math.log, (f: number) => f].map((link) => {
    const y = among.map((i) => link(oscillatorHz(points[i].frequencyHz, c)));
    const [y0, y1] = [Math.min(...y), Math.max(...y)];
    return y.map((v) => (2 * v - y0 - y1) / (y1 - y0 || 1));
  });
}
/** What is left at each point by the cubic that fits three quarters of them best, in any of the coordinates. */
function trimmedBest(x: readonly number[], links: readonly (readonly number[])[]) {
  const n = x.length;
  const mostCount = Math.ceil(0.75 * n);
  const chance = uniformStream(1, "trimmed subsets", subsetsCount * subsetSize);
  const squares = new Float64Array(n);
  const off = new Float64Array(n);
  let best: { readonly meanSquare: number; readonly residuals: Float64Array } | undefined;
  for (let k = 0; k < subsetsCount; k++) {
    const through = Array.from({ length: subsetSize }, (_, j) => Math.min(n - 1, Math.floor(chance[subsetSize * k + j] * n)));
    if (new Set(through.map((i) => x[i])).size < subsetSize) continue;
    for (const z of links) {
      for (let i = 0; i < n; i++) {
        off[i] = z[i] - lagrange(through, x, z, x[i]);
        squares[i] = off[i] * off[i];
      }
      squares.sort();
      let sum = 0;
      for (let i = 0; i < mostCount; i++) sum += squares[i];
      if (sum / mostCount < (best?.meanSquare ?? Number.POSITIVE_INFINITY)) best = { meanSquare: sum / mostCount, residuals: off.slice() };
    }
  }
  return best;
}
/** The polynomial through some of the points, at a place. */
function lagrange(through: readonly number[], x: readonly number[], z: readonly number[], v: number): number {
  let sum = 0;
  for (const i of through) {
    let term = z[i];
    for (const j of through) if (j !== i) term *= (v - x[j]) / (x[i] - x[j]);
    sum += term;
  }
  return sum;
}
