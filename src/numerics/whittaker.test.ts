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
it("smooths the same readings to the same curve, and a plain lift of them lifts it alike", () => {
  const y = normalStream(1, "y", 30);
  const { values, again } = smoothed(y);
  expect([...again(y)]).toEqual([...values]);
  const lifted = again(y.map((v) => v + 7));
  for (let i = 0; i < 30; i++) expect(lifted[i]).toBeCloseTo(values[i] + 7, 4);
});
it("draws curves that hold the true one at nine places of ten or better, and no wider than that needs", () => {
  let [held, all, wide] = [0, 0, 0];
  for (let seed = 1; seed <= 12; seed++) {
    const z = normalStream(seed, "z", n);
    const s = smoothed(curve.map((v, i) => v + 0.3 * z[i]));
    const draws = Array.from({ length: 100 }, (_, k) => s.draw(k, 100));
    for (let i = 5; i < n; i += 10) {
      const at = draws.map((d) => d[i]);
      const mean = at.reduce((t, v) => t + v, 0) / 100;
      const u = Math.sqrt(at.reduce((t, v) => t + (v - mean) ** 2, 0) / 99);
      all++;
      wide += u;
      if (Math.abs(curve[i] - s.values[i]) < 1.96 * u) held++;
    }
  }
  expect(held / all).toBeGreaterThan(0.9);
  expect(held / all).toBeLessThan(0.99);
  expect(wide / all).toBeLessThan(0.12);
});
it("comes far nearer to a curve than its readings, and knows their scatter to 15 %", () => {
  const z = normalStream(2, "z", n);
  const s = smoothed(curve.map((v, i) => v + 0.3 * z[i]));
  const off = Math.sqrt(curve.reduce((t, v, i) => t + (s.values[i] - v) ** 2, 0) / n);
  expect(off).toBeLessThan(0.12);
  expect(Math.abs(s.sigma / 0.3 - 1)).toBeLessThan(0.15);
});
