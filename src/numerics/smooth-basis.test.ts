import { expect, it } from "vitest";
import { cubicTerms, maternVariances, smoothBasis, smoothSlope, smoothSlopes, smoothTerms, smoothValue } from "./smooth-basis";

const at = (u: number): Float64Array => {
  const b = new Float64Array(smoothTerms);
  smoothBasis(u, b);
  return b;
};
/** Covariance of the sines at two places. */
const covariance = (u: number, v: number, length: number): number =>
  maternVariances(length, 1).reduce((s, q, j) => s + q * at(u)[cubicTerms + j] * at(v)[cubicTerms + j], 0);
/** Matern 5/2 in closed form: Rasmussen and Williams, Gaussian Processes for Machine Learning (2006), eq. 4.17. */
const matern = (d: number, length: number): number => {
  const x = (Math.sqrt(5) * Math.abs(d)) / length;
  return (1 + x + (x * x) / 3) * Math.exp(-x);
};

it("stands for the Matern-5/2 process away from its ends", () => {
  // the reduced rank leaves a few percent; nearer the ends and at longer lengths the cubic beside it takes over
  for (const length of [0.3, 0.6])
    for (const [u, v] of [
      [0, 0],
      [0, 0.2],
      [-0.5, -0.1],
      [0.3, 0.7],
    ])
      expect(Math.abs(covariance(u, v, length) - matern(u - v, length)), `${length} ${u} ${v}`).toBeLessThan(0.05);
});
it("has slopes that are those of its values", () => {
  const d = new Float64Array(smoothTerms);
  for (const u of [-1, -0.3, 0.2, 0.9]) {
    smoothSlopes(u, d);
    const [a, b] = [at(u - 1e-5), at(u + 1e-5)];
    for (let i = 0; i < smoothTerms; i++) expect(Math.abs((b[i] - a[i]) / 2e-5 - d[i])).toBeLessThan(1e-5 * (1 + Math.abs(d[i])));
  }
});
it("sums itself to the same, values and slopes, from end to end and a little beyond", () => {
  const w = Float64Array.from({ length: smoothTerms }, (_, i) => Math.cos(3 * i) / (1 + i));
  const d = new Float64Array(smoothTerms);
  for (const u of [-1.1, -1, -0.3, 0, 0.2, 0.9, 1, 1.1]) {
    smoothSlopes(u, d);
    const sum = (b: Float64Array): number => b.reduce((s, v, i) => s + v * w[i], 0);
    expect(smoothValue(u, w)).toBeCloseTo(sum(at(u)), 12);
    expect(smoothSlope(u, w)).toBeCloseTo(sum(d), 11);
  }
});
