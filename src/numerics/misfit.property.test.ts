/** The rule of misfits on invented residuals: rates of false and true calls, and what widening does to coverage. */
import { describe, expect, it } from "vitest";
import { judgeMisfit } from "./misfit";
import { normalStream } from "./random";

const white = (seed: number, n: number): Float64Array => normalStream(seed, "white", n);
const wandering = (seed: number, n: number, keep: number): Float64Array => {
  const z = white(seed, n);
  const out = z.slice();
  for (let i = 1; i < n; i++) out[i] = keep * out[i - 1] + Math.sqrt(1 - keep * keep) * z[i];
  return out;
};
/** Residuals about the mean, and the mean. */
const aboutMean = (x: Float64Array): { readonly mean: number; readonly rest: Float64Array } => {
  const mean = x.reduce((s, v) => s + v, 0) / x.length;
  return { mean, rest: x.map((v) => v - mean) };
};
/** How often the widened 95 % interval of a mean holds the truth, 0. */
const held = (of: (seed: number) => Float64Array, noise: number | undefined): number => {
  let n = 0;
  for (let seed = 0; seed < 1000; seed++) {
    const x = of(seed);
    const { mean, rest } = aboutMean(x);
    const m = judgeMisfit({ residuals: rest, parameters: 1, ...(noise === undefined ? {} : { noise }) });
    if (Math.abs(mean) < 1.96 * m.widenRatio * (m.noise / Math.sqrt(x.length))) n++;
  }
  return n / 1000;
};

describe("white residuals of the stated size", () => {
  it("are called a pattern less than once in a hundred times, and never fail the law", () => {
    const all = Array.from({ length: 1000 }, (_, seed) => judgeMisfit({ residuals: white(seed, 60), noise: 1, parameters: 3 }));
    expect(all.filter((m) => m.patterned).length).toBeLessThan(10);
    expect(all.filter((m) => m.verdict === "law-fails").length).toBe(0);
    expect(all.filter((m) => m.verdict === "ok").length).toBeGreaterThan(970);
  });
  it("leave the interval of a mean right", () => {
    expect(held((seed) => white(seed, 40), 1)).toBeGreaterThan(0.94);
    expect(held((seed) => white(seed, 40), 1)).toBeLessThan(0.98);
    expect(held((seed) => white(seed, 6), undefined)).toBeGreaterThan(0.93);
  });
});
describe("residuals that wander", () => {
  it("are called a pattern, and widen the interval until it holds", () => {
    for (const keep of [0.5, 0.8]) {
      const called = Array.from({ length: 200 }, (_, seed) =>
        judgeMisfit({ residuals: wandering(seed, 120, keep), noise: 1, parameters: 1 }),
      );
      expect(called.filter((m) => m.patterned && !m.mayExtrapolate).length).toBeGreaterThan(195);
      expect(held((seed) => wandering(seed, 120, keep), 1)).toBeGreaterThan(0.92);
    }
  });
  it("are found under noise that hides them from neighbours", () => {
    const found = Array.from({ length: 100 }, (_, seed) => {
      const r = white(seed, 400).map((v, i) => v + 0.6 * Math.sin((2 * Math.PI * i) / 133));
      return judgeMisfit({ residuals: r, noise: 1, parameters: 4 }).patterned;
    });
    expect(found.filter(Boolean).length).toBeGreaterThan(85);
  });
});
describe("residuals larger than the stated noise", () => {
  it("widen by their ratio", () => {
    const m = judgeMisfit({ residuals: white(1, 2000).map((v) => 2 * v), noise: 1, parameters: 2 });
    expect(Math.abs(m.timesNoise - 2)).toBeLessThan(0.1);
    expect(m.widenRatio).toBeCloseTo(m.timesNoise, 9);
    expect(m.verdict).toBe("widen");
  });
  it("fail the law where they are five times as large, with one noise or one each", () => {
    const five = white(2, 50).map((v) => 5 * v);
    expect(judgeMisfit({ residuals: five, noise: 1, parameters: 2 }).verdict).toBe("law-fails");
    expect(judgeMisfit({ residuals: five, noise: new Float64Array(50).fill(1), parameters: 2 }).verdict).toBe("law-fails");
    expect(judgeMisfit({ residuals: five, noise: 5, parameters: 2 }).verdict).toBe("ok");
  });
  it("fail it by their neighbours alone where no noise is stated", () => {
    const slow = white(3, 200).map((v, i) => v + 8 * Math.sin(i / 20));
    expect(judgeMisfit({ residuals: slow, parameters: 2 }).verdict).toBe("law-fails");
  });
});
it("widens by Student's factor where the scatter is all there is", () => {
  const widen = (free: number): number => {
    const r = Float64Array.from({ length: free + 1 }, (_, i) => (i % 2 ? 1 : -1));
    return judgeMisfit({ residuals: r, parameters: 1 }).widenRatio;
  };
  // 97.5 % points of Student's t over 1.95996: 12.706, 4.3027, 2.5706, 2.2281 for 1, 2, 5, 10 degrees of freedom, Abramowitz and Stegun table 26.10
  for (const [free, t] of [
    [1, 12.706],
    [2, 4.3027],
    [5, 2.5706],
    [10, 2.2281],
  ])
    expect(widen(free)).toBeCloseTo(t / 1.95996, 2);
});
it("says nothing wrong of residuals that are nothing", () => {
  const m = judgeMisfit({ residuals: new Float64Array(20), noise: 0.1, parameters: 2 });
  expect([m.verdict, m.widenRatio, m.patterned]).toEqual(["ok", 1, false]);
});
