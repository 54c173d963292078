/** Laws and limiting cases. */
import { describe, expect, it } from "vitest";
import { multilayerH, singleLayerH, thickCoilH } from "./inductance";

describe("single layer", () => {
  it("the long-solenoid formula is 17.7 % over at 2 cm radius and 10 cm: the wrong formula as a negative test", () => {
    const long = (4e-7 * Math.PI * 200 ** 2 * Math.PI * 0.02 ** 2) / 0.1;
    const true_ = singleLayerH(200, 0.04, 0.1);
    expect(long * 1e3).toBeCloseTo(0.63165, 4);
    expect(true_ * 1e3).toBeCloseTo(0.53681, 4);
  });
  it("a very long coil is the long solenoid: the limiting case", () => {
    expect(singleLayerH(1000, 0.01, 10) / ((4e-7 * Math.PI * 1e6 * Math.PI * 0.005 ** 2) / 10)).toBeCloseTo(1, 3);
  });
});

describe("several layers", () => {
  it("as rings: a thin winding is Nagaoka's single layer, within 0.5 %: the limiting case", () => {
    for (const length of [0.02, 0.05])
      expect(Math.abs(thickCoilH(100, 0.05, length, 2e-5) / singleLayerH(100, 0.05, length) - 1)).toBeLessThan(0.005);
  });
  it("the old formula is 12 % low for a coil twice as deep as its radius is long: not used there", () => {
    expect(multilayerH(100, 0.02, 0.0005, 0.0195) / thickCoilH(100, 0.02, 0.0005, 0.0195)).toBeLessThan(0.9);
  });
  it("refuses a winding that reaches past its axis", () => {
    expect(() => thickCoilH(100, 0.02, 0.01, 0.02)).toThrow();
  });
});
