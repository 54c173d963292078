import { expect, it } from "vitest";
import { normalEquations, posterior, transposedSolveInPlace } from "./bayes-linear";
import { choleskyFactor } from "./linear";
import { normalStream } from "./random";

const [n, k] = [9, 4];
const z = normalStream(3, "rows", n * k);
const rows = Array.from({ length: n }, (_, i) => z.slice(i * k, (i + 1) * k));
const target = Array.from(normalStream(4, "targets", n));
const variance = Array.from({ length: n }, (_, i) => 0.2 + 0.1 * i);
const size = Float64Array.of(2, 0.5, 1, 3);
const p = posterior(normalEquations(rows, target, variance), size)!;

it("has the evidence of the direct form: targets are normal about zero with covariance X S^2 X' + V (Rasmussen and Williams, eq. 2.37)", () => {
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      covariance[i * n + j] = i === j ? variance[i] : 0;
      for (let c = 0; c < k; c++) covariance[i * n + j] += rows[i][c] * size[c] ** 2 * rows[j][c];
    }
  const l = choleskyFactor(covariance, n)!;
  const half = [...target];
  let log = 0;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < i; j++) half[i] -= l[i * n + j] * half[j];
    half[i] /= l[i * n + i];
    log -= 0.5 * half[i] ** 2 + Math.log(l[i * n + i]);
  }
  expect(p.log).toBeCloseTo(log, 9);
});
it("without a prior worth naming is weighted least squares: the rest stands square on every column", () => {
  const wide = posterior(normalEquations(rows, target, variance), new Float64Array(k).fill(1e4))!;
  const w = wide.mean.map((v) => v * 1e4);
  for (let c = 0; c < k; c++) {
    const dot = rows.reduce((s, r, i) => s + (r[c] / variance[i]) * (target[i] - r.reduce((t, v, j) => t + v * w[j], 0)), 0);
    expect(Math.abs(dot)).toBeLessThan(1e-5);
  }
});
it("holds a coefficient of no size at zero, and solves the transposed system", () => {
  const held = posterior(normalEquations(rows, target, variance), Float64Array.of(2, 0, 1, 3))!;
  expect(Math.abs(held.mean[1])).toBe(0);
  const b = Float64Array.of(1, -2, 0.5, 3);
  const x = b.slice();
  transposedSolveInPlace(p.factor, x, k);
  for (let i = 0; i < k; i++) {
    let s = 0;
    for (let j = i; j < k; j++) s += p.factor[j * k + i] * x[j];
    expect(s).toBeCloseTo(b[i], 12);
  }
});
