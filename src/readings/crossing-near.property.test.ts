/** Where a curve crosses a level: laws that hold for any curve, at points as unevenly apart as a hand sets them. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { crossingNear } from "./crossing-near";

/** The search ends at a ten-thousandth of the step: fourteen halvings, and the middle of what is left; a little more for rounding. */
const nearness = 2 ** -15 * (1 + 1e-6);
const parts = fc.double({ min: -3, max: 3, noNaN: true });
/** Points over the IF, 0.2 to 2 kHz apart. */
const frequencies = (count: number) =>
  fc
    .array(fc.double({ min: 200, max: 2000, noNaN: true }), { minLength: count, maxLength: count })
    .map((steps) => Float64Array.from(steps, (_, k) => 450_000 + steps.slice(0, k + 1).reduce((a, b) => a + b, 0)));
const levels = (count: number) =>
  fc.array(fc.double({ min: -60, max: 0, noNaN: true }), { minLength: count, maxLength: count }).map((y) => Float64Array.from(y));
/** A level between two points that differ, as far from the first as is said. */
const between = (y: Float64Array, i: number, j: number, part: number): number => {
  fc.pre(Math.abs(y[j] - y[i]) > 1e-3);
  return y[i] + part * (y[j] - y[i]);
};
const within = fc.double({ min: 0.01, max: 0.99, noNaN: true });
const straight = (f: Float64Array, y: Float64Array, i: number, j: number, level: number): number => {
  const part = (level - y[i]) / (y[j] - y[i]);
  return (1 - part) * f[i] + part * f[j];
};

describe("where a curve crosses a level", () => {
  it("is exact on any cubic: the curve lies on either side of the level a ten-thousandth of the step away", () =>
    fc.assert(
      fc.property(frequencies(4), fc.tuple(parts, parts, parts, parts), within, (f, [a, b, c, d], part) => {
        const cubic = (hz: number): number => {
          const x = (hz - f[1]) / 1000;
          return a + b * x + c * x * x + d * x ** 3;
        };
        const y = f.map(cubic);
        const level = between(y, 1, 2, part);
        const at = crossingNear(f, y, 1, 2, level);
        const near = nearness * (f[2] - f[1]);
        const rounding = 1e-9;
        const [before, after] = [cubic(at - near) - level, cubic(at + near) - level].map((off) => (y[2] > y[1] ? off : -off));
        expect(before).toBeLessThanOrEqual(rounding);
        expect(after).toBeGreaterThanOrEqual(-rounding);
      }),
      { numRuns: 2000 },
    ));
  it("lies where the bend takes it, outside of the straight line's: a parabola's own root", () => {
    // 10 - x^2 at -1, 2, 4 and 5, down to 0: its root is the square root of ten, a straight line's 2 + 6 / 6 = 3
    const f = Float64Array.of(-1, 2, 4, 5);
    expect(
      Math.abs(
        crossingNear(
          f,
          f.map((x) => 10 - x * x),
          1,
          2,
          0,
        ) - Math.sqrt(10),
      ),
    ).toBeLessThan(2 * nearness);
  });
  it("is a straight line's at the ends, where there is no further point on a side", () =>
    fc.assert(
      fc.property(frequencies(5), levels(5), within, (f, y, part) => {
        for (const [i, j] of [
          [0, 1],
          [3, 4],
        ]) {
          const level = between(y, i, j, part);
          expect(Math.abs(crossingNear(f, y, i, j, level) - straight(f, y, i, j, level))).toBeLessThan(1e-6);
        }
        const [two, level] = [f.subarray(0, 2), between(y, 0, 1, part)];
        expect(Math.abs(crossingNear(two, y.subarray(0, 2), 0, 1, level) - straight(f, y, 0, 1, level))).toBeLessThan(1e-6);
      }),
    ));
  it("is a straight line's where the points lie on one", () =>
    fc.assert(
      fc.property(frequencies(6), parts, within, (f, slope, part) => {
        fc.pre(Math.abs(slope) > 0.1);
        const y = f.map((hz) => -20 + (slope * (hz - f[0])) / 1000);
        for (const k of [0, 1, 2, 3, 4]) {
          const level = between(y, k, k + 1, part);
          const off = Math.abs(crossingNear(f, y, k, k + 1, level) - straight(f, y, k, k + 1, level));
          expect(off).toBeLessThan(nearness * (f[k + 1] - f[k]));
        }
      }),
    ));
  it("lies between the two points, however wild the curve", () =>
    fc.assert(
      fc.property(frequencies(6), levels(6), within, fc.integer({ min: 0, max: 4 }), (f, y, part, k) => {
        const at = crossingNear(f, y, k, k + 1, between(y, k, k + 1, part));
        expect(at).toBeGreaterThan(f[k]);
        expect(at).toBeLessThan(f[k + 1]);
      }),
      { numRuns: 1000 },
    ));
  it("is the same from either point, over a curve that rises as over one that falls, and in a mirror", () =>
    fc.assert(
      // of several crossings between two points the halving finds the same, but where it meets one to the last digit
      fc.property(frequencies(6), fc.noBias(levels(6)), fc.noBias(within), fc.integer({ min: 0, max: 4 }), (f, y, part, k) => {
        const level = between(y, k, k + 1, part);
        const at = crossingNear(f, y, k, k + 1, level);
        const near = 1e-6 + 2 * nearness * (f[k + 1] - f[k]);
        expect(Math.abs(crossingNear(f, y, k + 1, k, level) - at)).toBeLessThan(1e-6);
        const turned = crossingNear(
          f,
          y.map((dB) => -dB),
          k,
          k + 1,
          -level,
        );
        const mirrored = crossingNear(f.map((hz) => -hz).reverse(), y.slice().reverse(), 4 - k, 5 - k, level);
        expect(Math.abs(turned - at)).toBeLessThan(near);
        expect(Math.abs(-mirrored - at)).toBeLessThan(near);
      }),
      { numRuns: 1000 },
    ));
});
