import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { areApart } from "./apart";

describe("the ends of a bracket", () => {
  it("come together by halving, wherever they lie, in no more halvings than a number has places and powers", () => {
    const end = fc.oneof(fc.double({ noNaN: true }), fc.constantFrom(1e30, -1e30, 455e3, 0, 1e300));
    fc.assert(
      fc.property(end, end, fc.constantFrom(0.02, 1e-4, 1e-300), fc.boolean(), (x, y, least, up) => {
        let [low, high] = x < y ? [x, y] : [y, x];
        let count = 0;
        while (areApart(low, high, least)) {
          const mid = low / 2 + high / 2;
          if (up) low = mid;
          else high = mid;
          if (++count > 2200) break;
        }
        expect(count).toBeLessThanOrEqual(2200);
      }),
    );
  });
  it("are as near as is wanted where numbers can tell that", () => {
    expect(areApart(455_000, 455_000.021, 0.02)).toBe(true);
    expect(areApart(455_000, 455_000.019, 0.02)).toBe(false);
    expect(areApart(Number.NaN, 1, 0.02)).toBe(false);
  });
});
