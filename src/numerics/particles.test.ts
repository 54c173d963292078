import { describe, expect, it } from "vitest";
import { meanAndDeviation } from "./mean";
import { drawParticles } from "./particles";

const near = (got: number, want: number, within: number): void =>
  expect(Math.abs(got - want), `${got} against ${want}`).toBeLessThan(within);
/** Normal of two unknowns with standard deviations 0.02 and 0.1 and correlation 0.95, about 0.3 and -0.2. */
const bent = (at: Float64Array): number => {
  const [a, b] = [(at[0] - 0.3) / 0.02, (at[1] + 0.2) / 0.1];
  return -0.5 * ((a * a - 2 * 0.95 * a * b + b * b) / (1 - 0.95 ** 2));
};
describe("particles", () => {
  it("have mean, spread and correlation of a narrow, slanted normal law", () => {
    const p = drawParticles({ low: [-2, -2], high: [2, 2], logLikelihood: bent, count: 1000, seed: 1, name: "t" });
    const [x, y] = [0, 1].map((d) => meanAndDeviation(p.map((q) => q.at[d])));
    near(x.mean, 0.3, 0.002);
    near(x.deviation, 0.02, 0.002);
    near(y.mean, -0.2, 0.01);
    near(y.deviation, 0.1, 0.01);
    near(p.reduce((s, q) => s + ((q.at[0] - x.mean) * (q.at[1] - y.mean)) / 0.002, 0) / p.length, 0.95, 0.15);
  });
  it("keep two peaks in their proportion", () => {
    const two = (at: Float64Array): number =>
      Math.log(0.75 * Math.exp(-0.5 * ((at[0] - 3) / 0.1) ** 2) + 0.25 * Math.exp(-0.5 * ((at[0] + 3) / 0.1) ** 2) + 1e-300);
    const p = drawParticles({ low: [-10], high: [10], logLikelihood: two, count: 1000, seed: 2, name: "t" });
    near(p.filter((q) => q.at[0] > 0).length / p.length, 0.75, 0.08);
  });
  it("keep what is to rise rising, and stay within their ends", () => {
    const p = drawParticles({ low: [0, 0], high: [1, 1], rising: 2, logLikelihood: () => 0, count: 400, seed: 3, name: "t" });
    for (const q of p) expect(q.at[0] <= q.at[1] && q.at[0] >= 0 && q.at[1] <= 1).toBe(true);
    // the lower of two uniforms has mean 1/3
    near(meanAndDeviation(p.map((q) => q.at[0])).mean, 1 / 3, 0.04);
  });
});
