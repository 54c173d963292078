/** Second implementation: figures worked out apart from this code. */
import { describe, expect, it } from "vitest";
import { multilayerH, singleLayerH, thickCoilH, wheelerH } from "./inductance";

const inch = 0.0254;

describe("single layer", () => {
  it.each([
    [0.2, -0.108],
    [0.4, -0.0406],
    [0.8, -0.0054],
    [1, -0.0012],
    [3, -0.0036],
    [10, -0.0056],
  ])("Wheeler at length %f of the radius is off by %f", (ratio, error) => {
    expect(wheelerH(100, 0.02, 0.01 * ratio) / singleLayerH(100, 0.02, 0.01 * ratio) - 1).toBeCloseTo(error, 3);
  });
});

describe("several layers", () => {
  it.each([
    [0.3, 0.2, 0.25, 300, 1075.51],
    [0.5, 0.25, 0.25, 200, 1031.43],
    [0.25, 0.125, 0.2, 250, 685.71],
  ])(
    "as rings: %f, %f, %f inch and %i turns have %f uH within 0.3 % (double integration over rings, apart from this code)",
    (a, b, c, n, want) => {
      expect(Math.abs((thickCoilH(n, 2 * a * inch, b * inch, c * inch) * 1e6) / want - 1)).toBeLessThan(0.003);
    },
  );
  it.each([
    [0.3, 0.2, 0.25, 300, 1075.51],
    [0.5, 0.25, 0.25, 200, 1031.43],
    [0.25, 0.125, 0.2, 250, 685.71],
  ])(
    "an IF coil of %f, %f, %f inch and %i turns has %f uH within 1.5 % (double integration over rings, apart from this code)",
    (a, b, c, n, want) => {
      expect(Math.abs((multilayerH(n, 2 * a * inch, b * inch, c * inch) * 1e6) / want - 1)).toBeLessThan(0.015);
    },
  );
});
