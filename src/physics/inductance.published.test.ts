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
  it("48 turns, 0.75 inch, 32 turns to the inch: 17.6 uH (source: a handbook's example, from memory)", () => {
    expect(wheelerH(48, 0.75 * inch, 1.5 * inch) * 1e6).toBeCloseTo(17.6, 1);
    expect(singleLayerH(48, 0.75 * inch, 1.5 * inch) * 1e6).toBeCloseTo(17.7204, 3);
  });
});

describe("several layers", () => {
  it("as rings: Brooks's coil has 1.6994e-6 a N^2, within 0.3 %", () => {
    const c = 0.02;
    expect(Math.abs(thickCoilH(100, 3 * c, c, c) / (1.6994e-6 * 1.5 * c * 1e4) - 1)).toBeLessThan(0.003);
  });
  it("Brooks's coil: 1.6994e-6 a N^2, within 1 %", () => {
    const c = 0.02;
    expect(Math.abs(multilayerH(100, 3 * c, c, c) / (1.6994e-6 * 1.5 * c * 1e4) - 1)).toBeLessThan(0.01);
  });
});
