import { describe, expect, it } from "vitest";
import { medianRank, proportionInterval } from "./binomial";

describe("the interval of a proportion", () => {
  // Source: Newcombe, Statistics in Medicine 17 (1998) 857, table I, method 3 (score), four decimals (from memory; each met to all of them).
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])("of %d in %d is %d to %d", (k, n, low, high) => {
    const got = proportionInterval(k, n, 0.95);
    expect(Math.abs(got.low - low)).toBeLessThanOrEqual(5e-5);
    expect(Math.abs(got.high - high)).toBeLessThanOrEqual(5e-5);
  });
  // Source: scipy 1.17.1, stats.binomtest(k, n).proportion_ci(0.95, "wilson"), all digits.
  it.each([
    [2, 6, 0.09677141110578047, 0.700006684861608],
    [6, 6, 0.6096657120978346, 1],
    [7, 9, 0.4525889691069889, 0.9367748928821533],
    [81, 263, 0.2552885198782742, 0.36620957698280004],
  ])("of %d in %d is that of a library of statistics", (k, n, low, high) => {
    const got = proportionInterval(k, n, 0.95);
    expect(Math.abs(got.low - low)).toBeLessThan(1e-12);
    expect(Math.abs(got.high - high)).toBeLessThan(1e-12);
  });
  it("is the same from the other end", () => {
    for (let k = 0; k <= 9; k++) {
      const [a, b] = [proportionInterval(k, 9, 0.9), proportionInterval(9 - k, 9, 0.9)];
      expect(Math.abs(a.low - (1 - b.high))).toBeLessThan(1e-15);
    }
  });
});

describe("the values that hold a median", () => {
  // Source: the binomial law at one half by scipy 1.17.1, stats.binom.cdf; the pairs of ranks are those of Conover, Practical Nonparametric Statistics, table A3 (from memory).
  it.each([
    [5, undefined],
    [6, 1],
    [8, 1],
    [10, 2],
    [15, 4],
    [20, 6],
    [25, 8],
    [50, 18],
    [100, 40],
  ])("among %d are the %d-th from either end, at 95 %%", (n, rank) => {
    expect(medianRank(n, 0.95)).toBe(rank);
  });
  // Limiting case: n/2 - z sqrt(n)/2 for many.
  it("come near the middle as the normal law says, for very many", () => {
    for (const n of [2000, 10_000]) expect(Math.abs(medianRank(n, 0.95)! - (n / 2 - 0.98 * Math.sqrt(n)))).toBeLessThan(1.5);
  });
});
