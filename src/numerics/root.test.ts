import { describe, expect, it } from "vitest";
import { rootBetween } from "./root";

describe("a root between two places", () => {
  it.each([
    [(x: number) => Math.cos(x), 0, 3, Math.PI / 2],
    [(x: number) => x ** 9, -1, 2, 0],
    [(x: number) => Math.exp(-40 * x) - 0.5, 0, 1, Math.LN2 / 40],
    [(x: number) => 1 / (x - 3) + 1000, 2, 2.9999999, 2.999],
  ] as const)("%s from %f to %f", (f, from, to, root) => {
    expect(Math.abs(rootBetween(f, from, to, 1e-9) - root)).toBeLessThan(1e-9);
    expect(Math.abs(rootBetween(f, to, from, 1e-9) - root)).toBeLessThan(1e-9);
  });
  it("takes no more than a fifth of what halving takes, where the function is nearly straight", () => {
    let asked = 0;
    rootBetween(
      (x) => {
        asked++;
        return Math.log(2 + x) - 1;
      },
      0,
      1,
      1e-12,
    );
    expect(asked).toBeLessThan(12);
  });
  it("comes to its end where neighbours among numbers lie further apart than is asked", () => {
    expect(rootBetween((x) => x - 1e18, 0, 4e18, 1e-9) / 1e18).toBeCloseTo(1, 12);
  });
});
