import { expect, it } from "vitest";
import { normalStream } from "./random";
import { smoothed } from "./whittaker";

const n = 200;
const curve = Float64Array.from({ length: n }, (_, i) => 5 * Math.exp(-(((i - 90) / 30) ** 2)));
it("leaves a parabola as it is", () => {
  const y = Float64Array.from({ length: 40 }, (_, i) => 3 - 0.2 * i + 0.01 * i * i);
  const s = smoothed(y);
  for (let i = 0; i < 40; i++) expect(s.values[i]).toBeCloseTo(y[i], 6);
});
it("solves its equation: what is left is the penalty's pull", () => {
  const y = normalStream(1, "y", 30);
  const { values, again } = smoothed(y);
  // (I + c D'D) z = y for one c at every place
  const third = (z: Float64Array, i: number): number => (i < 0 || i + 3 >= z.length ? 0 : z[i + 3] - 3 * z[i + 2] + 3 * z[i + 1] - z[i]);
  const pull = values.map((_, i) => -third(values, i) + 3 * third(values, i - 1) - 3 * third(values, i - 2) + third(values, i - 3));
  const k = pull.reduce((b, v, i) => (Math.abs(v) > Math.abs(pull[b]) ? i : b), 0);
  const c = (y[k] - values[k]) / pull[k];
  for (let i = 0; i < 30; i++) expect(values[i] + c * pull[i]).toBeCloseTo(y[i], 6);
  expect([...again(y)]).toEqual([...values]);
});
it("comes far nearer to a curve than its readings, and knows their scatter to 15 %", () => {
  const z = normalStream(2, "z", n);
  const s = smoothed(curve.map((v, i) => v + 0.3 * z[i]));
  const off = Math.sqrt(curve.reduce((t, v, i) => t + (s.values[i] - v) ** 2, 0) / n);
  expect(off).toBeLessThan(0.12);
  expect(Math.abs(s.sigma / 0.3 - 1)).toBeLessThan(0.15);
});
