import { describe, expect, it } from "vitest";
import { normalStream, uniformStream } from "./random";
import { firstOrderShares } from "./shares";

const n = 2000;
const firstOrderShare = (result: Float64Array, group: readonly Float64Array[]): number => firstOrderShares([group], [result])[0][0];
describe("first-order shares", () => {
  it("four equal inputs of the additive model of JCGM 101 9.2 explain a quarter each", () => {
    const xs = [0, 1, 2, 3].map((i) => normalStream(1, `x${i}`, n));
    const y = xs[0].map((_, i) => xs[0][i] + xs[1][i] + xs[2][i] + xs[3][i]);
    for (const x of xs) expect(firstOrderShare(y, [x])).toBeCloseTo(0.25, 1);
    expect(firstOrderShare(y, [xs[0], xs[1]])).toBeCloseTo(0.5, 1);
  });
  // Source: Ishigami and Homma 1990; closed form with a = 7, b = 0.1: S1 = 0.3139, S2 = 0.4424, S3 = 0 (recomputed from the integrals).
  it("meets the closed form of the Ishigami function", () => {
    const [x1, x2, x3] = ["a", "b", "c"].map((k) => uniformStream(3, k, n).map((p) => (2 * p - 1) * Math.PI));
    const y = x1.map((x, i) => Math.sin(x) + 7 * Math.sin(x2[i]) ** 2 + 0.1 * x3[i] ** 4 * Math.sin(x));
    const noise = 3 / Math.sqrt(n);
    expect(Math.abs(firstOrderShare(y, [x1]) - 0.3139)).toBeLessThan(noise);
    expect(Math.abs(firstOrderShare(y, [x2]) - 0.4424)).toBeLessThan(noise);
    expect(firstOrderShare(y, [x3])).toBeLessThan(noise);
  });
  it("leaves out draws without a value", () => {
    const x = normalStream(1, "x", n);
    expect(
      firstOrderShare(
        x.map((v, i) => (i % 3 ? 2 * v : Number.NaN)),
        [x],
      ),
    ).toBeGreaterThan(0.99);
  });
  it("explains by an input of few values, and in some of the draws, no more than there is", () => {
    const [x, z] = ["x", "z"].map((k) => normalStream(5, k, n));
    const noise = 3 / Math.sqrt(n);
    // of two values, each of variance 1 like the rest of the result: half of it
    const few = x.map((v) => Math.sign(v));
    expect(
      Math.abs(
        firstOrderShare(
          few.map((v, i) => v + z[i]),
          [few],
        ) - 0.5,
      ),
    ).toBeLessThan(noise);
    const some = x.map((v, i) => (i % 3 ? v + z[i] : Number.NaN));
    expect(Math.abs(firstOrderShare(some, [x]) - 0.5)).toBeLessThan(noise);
  });
  it("gives each of many results what it has alone, those without a value in some draws among them", () => {
    const [x, z] = ["x", "z"].map((k) => normalStream(5, k, n));
    const results = [x.map((v, i) => v + z[i]), x.map((v, i) => (i % 5 ? v ** 2 + z[i] : Number.NaN)), x.map(() => 3), z];
    const together = firstOrderShares([[x], [z]], results);
    for (const [i, y] of results.entries()) expect(together[i]).toEqual([firstOrderShare(y, [x]), firstOrderShare(y, [z])]);
    expect(together[2]).toEqual([0, 0]);
    expect(together[3][1]).toBeGreaterThan(0.9999);
  });
  it("gives every group at once, and an input that repeats another's draws as much", () => {
    const [x, z] = ["x", "z"].map((k) => normalStream(5, k, n));
    const y = x.map((v, i) => 2 * v + z[i]);
    const [[ofX, ofZ, ofBoth, again]] = firstOrderShares([[x], [z], [x, z], [x, x]], [y]);
    expect(ofX).toBeCloseTo(0.8, 1);
    expect(ofZ).toBeCloseTo(0.2, 1);
    expect(ofBoth).toBeGreaterThan(0.9999);
    expect(again).toBeCloseTo(ofX, 2);
  });
});
