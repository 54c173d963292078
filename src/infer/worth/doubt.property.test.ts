import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { shrinkingByDraws } from "./by-draws.testdata";
import { linearShrinking, shareByMeasuring, shareRemoved } from "./doubt";

const some = fc.double({ min: -3, max: 3, noNaN: true });
const vector = (n: number) => fc.array(some, { minLength: n, maxLength: n });

describe("a value that is linear in what is not known", () => {
  it("loses nothing by a measurement of something unrelated, all by an exact one of itself, half by one as good as what is known", () => {
    const s = [4, 0, 0, 9];
    expect(linearShrinking(s, [1, 0], [0, 1], 0.1)).toEqual({ before: 4, after: 4 });
    expect(linearShrinking(s, [1, 1], [1, 1], 0)).toEqual({ before: 13, after: 0 });
    expect(linearShrinking(s, [1, 0], [1, 0], 4)).toEqual({ before: 4, after: 2 });
  });
  it("is left with what conditioning the whole covariance leaves; source: normal law by its precision, (S^-1 + hh'/r)^-1", () => {
    fc.assert(
      fc.property(vector(4), vector(2), vector(2), fc.double({ min: 0.01, max: 5, noNaN: true }), (a, g, h, r) => {
        // S = AA' + I, and its posterior by inverting precisions
        const s = [a[0] ** 2 + a[1] ** 2 + 1, a[0] * a[2] + a[1] * a[3], a[0] * a[2] + a[1] * a[3], a[2] ** 2 + a[3] ** 2 + 1];
        const inverse = (m: readonly number[]): number[] => {
          const d = m[0] * m[3] - m[1] * m[2];
          return [m[3] / d, -m[1] / d, -m[2] / d, m[0] / d];
        };
        const p = inverse(s).map((x, i) => x + (h[i >> 1] * h[i & 1]) / r);
        const left = inverse(p);
        const after = g[0] ** 2 * left[0] + 2 * g[0] * g[1] * left[1] + g[1] ** 2 * left[3];
        expect(linearShrinking(s, g, h, r).after).toBeCloseTo(after, 8);
      }),
    );
  });
  it("by the share of one unknown, says the same", () => {
    const s = linearShrinking([4, 0, 0, 9], [1, 2], [0, 1], 1);
    expect(shareByMeasuring(36 / 40, 3, 1)).toBeCloseTo(shareRemoved(s), 12);
  });
});

describe("brute force by draws", () => {
  const n = 2000;
  const [x, e] = ["x", "e"].map((name) => normalStream(5, name, n));
  it.each([0.1, 0.5, 1, 3])("is what the normal law gives, measured with an error of %f times what is not known", (u) => {
    const value = x.map((v, i) => v + 0.5 * e[i]);
    const { before, after } = shrinkingByDraws(value, x, u);
    expect(after / before).toBeGreaterThan(linearShrinking([1, 0, 0, 1], [1, 0.5], [1, 0], u ** 2).after / 1.25 - 0.03);
    expect(after / before).toBeLessThan(linearShrinking([1, 0, 0, 1], [1, 0.5], [1, 0], u ** 2).after / 1.25 + 0.03);
  });
  it("holds for a square, where no straight line is of use: variance of x^2 given x + error is 2s^4 + 4(1 - s^2)s^2 on the average, s^2 = u^2/(1 + u^2)", () => {
    for (const u of [0.2, 0.5, 1]) {
      const s2 = u ** 2 / (1 + u ** 2);
      const { before, after } = shrinkingByDraws(
        x.map((v) => v * v),
        x,
        u,
      );
      // the draws' own fourth moment is off by some percent of itself, in both alike
      expect(before, "2 for a standard normal").toBeCloseTo(2, 0);
      expect(Math.abs(after / before - (s2 ** 2 + 2 * (1 - s2) * s2)), `u ${u}: ${after} of ${before}`).toBeLessThan(0.06);
    }
  });
  it("bears out the share by measuring one input, where a value bends over what is not known of it", () => {
    const value = x.map((v, i) => Math.exp(0.3 * v) + 0.05 * e[i]);
    const byX = shareRemoved(shrinkingByDraws(value, x, 0));
    for (const u of [0.3, 0.7])
      expect(Math.abs(shareByMeasuring(byX, 1, u) - shareRemoved(shrinkingByDraws(value, x, u))), `u ${u}`).toBeLessThan(0.06);
  });
  it("never leaves more than there was, and nothing of itself where the measurement is exact", () => {
    expect(shareRemoved(shrinkingByDraws(x, x, 0))).toBeGreaterThan(0.99);
    expect(shareRemoved(shrinkingByDraws(x, e, 0.3))).toBeLessThan(0.03);
    expect(shrinkingByDraws(x, new Float64Array(n), 0)).toMatchObject({ after: shrinkingByDraws(x, e, 1).before });
  });
});
