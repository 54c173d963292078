import { describe, expect, it } from "vitest";
import { multilayerH, nagaoka, singleLayerH, thickCoilH, wheelerH } from "./inductance";

/** Source: Nagaoka's table (NBS Circular 74, from memory), a handbook example (from memory), a college text's inputs (read), Brooks's constant. */
const inch = 0.0254;
describe("single layer", () => {
  it.each([
    [0.1, 0.9588],
    [0.2, 0.9201],
    [0.3, 0.8838],
    [0.5, 0.8181],
    [1, 0.6884],
    [2, 0.5255],
    [3, 0.4292],
    [5, 0.3198],
    [10, 0.2033],
  ])("Nagaoka's factor at diameter over length %f is %f", (shape, factor) => {
    expect(Math.abs(nagaoka(shape) - factor)).toBeLessThan(1.2e-4);
  });
  it("48 turns, 0.75 inch, 32 turns to the inch: 17.6 uH (a handbook's example)", () => {
    expect(wheelerH(48, 0.75 * inch, 1.5 * inch) * 1e6).toBeCloseTo(17.6, 1);
    expect(singleLayerH(48, 0.75 * inch, 1.5 * inch) * 1e6).toBeCloseTo(17.7204, 3);
  });
  it("the long-solenoid formula is 17.7 % over at 2 cm radius and 10 cm: the wrong formula as a negative test", () => {
    const long = (4e-7 * Math.PI * 200 ** 2 * Math.PI * 0.02 ** 2) / 0.1;
    const true_ = singleLayerH(200, 0.04, 0.1);
    expect(long * 1e3).toBeCloseTo(0.63165, 4);
    expect(true_ * 1e3).toBeCloseTo(0.53681, 4);
  });
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
  it("a very long coil is the long solenoid: the limiting case", () => {
    expect(singleLayerH(1000, 0.01, 10) / ((4e-7 * Math.PI * 1e6 * Math.PI * 0.005 ** 2) / 10)).toBeCloseTo(1, 3);
  });
});
describe("several layers", () => {
  it("as rings: Brooks's coil has 1.6994e-6 a N^2, within 0.3 %", () => {
    const c = 0.02;
    expect(Math.abs(thickCoilH(100, 3 * c, c, c) / (1.6994e-6 * 1.5 * c * 1e4) - 1)).toBeLessThan(0.003);
  });
  it("as rings: a thin winding is Nagaoka's single layer, within 0.5 %: the limiting case", () => {
    for (const length of [0.02, 0.05])
      expect(Math.abs(thickCoilH(100, 0.05, length, 2e-5) / singleLayerH(100, 0.05, length) - 1)).toBeLessThan(0.005);
  });
  it.each([
    [0.3, 0.2, 0.25, 300, 1075.51],
    [0.5, 0.25, 0.25, 200, 1031.43],
    [0.25, 0.125, 0.2, 250, 685.71],
  ])(
    "as rings: %f, %f, %f inch and %i turns have %f uH within 0.3 % (numerical double integration of the reference text)",
    (a, b, c, n, want) => {
      expect(Math.abs((thickCoilH(n, 2 * a * inch, b * inch, c * inch) * 1e6) / want - 1)).toBeLessThan(0.003);
    },
  );
  it("the old formula is 12 % low for a coil twice as deep as its radius is long: not used there", () => {
    expect(multilayerH(100, 0.02, 0.0005, 0.0195) / thickCoilH(100, 0.02, 0.0005, 0.0195)).toBeLessThan(0.9);
  });
  it("refuses a winding that reaches past its axis", () => {
    expect(() => thickCoilH(100, 0.02, 0.01, 0.02)).toThrow();
  });
  it("Brooks's coil: 1.6994e-6 a N^2, within 1 %", () => {
    const c = 0.02;
    expect(Math.abs(multilayerH(100, 3 * c, c, c) / (1.6994e-6 * 1.5 * c * 1e4) - 1)).toBeLessThan(0.01);
  });
  it.each([
    [0.3, 0.2, 0.25, 300, 1075.51],
    [0.5, 0.25, 0.25, 200, 1031.43],
    [0.25, 0.125, 0.2, 250, 685.71],
  ])(
    "an IF coil of %f, %f, %f inch and %i turns has %f uH within 1.5 % (numerical double integration of the reference text)",
    (a, b, c, n, want) => {
      expect(Math.abs((multilayerH(n, 2 * a * inch, b * inch, c * inch) * 1e6) / want - 1)).toBeLessThan(0.015);
    },
  );
});
