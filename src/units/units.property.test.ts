import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Dimension, dimensions } from "./dimensions";
import { parseQuantity } from "./parse";
import { printExact, printQuantity, printValue } from "./print";
import { type Spread, standardUncertainty } from "./quantity";

const names = Object.keys(dimensions) as Dimension[];
const anyDimension = fc.constantFrom(...names.filter((n) => n !== "sReading"));
/** A chance is a doubt itself: none is printed beside it. */
const withDoubt = fc.constantFrom(...names.filter((n) => n !== "sReading" && n !== "chance"));
const decades: Partial<Record<Dimension, [number, number]>> = {
  capacitance: [-13, -2],
  capacitancePerLength: [-13, -8],
  length: [-6, 6],
  frequency: [-3, 9],
  decibel: [-2, 2],
  dbm: [-2, 2],
  temperature: [-1, 2],
  angle: [-1, 2],
  ratio: [-5, 3],
};
const sized = (d: Dimension) =>
  fc
    .tuple(fc.double({ min: 1, max: 9.99, noNaN: true }), fc.integer({ min: (decades[d] ?? [-8, 8])[0], max: (decades[d] ?? [-8, 8])[1] }))
    .map(([m, e]) => m * 10 ** e);

describe("quantities", () => {
  it("come back from print to within a part in 10^14", () => {
    fc.assert(
      fc.property(
        anyDimension.chain((d) => fc.tuple(fc.constant(d), sized(d))),
        ([d, x]) => {
          const r = parseQuantity(printExact(x, d), d);
          expect(r.ok && Math.abs(r.value.value / x - 1)).toBeLessThan(1e-13);
        },
      ),
      { numRuns: 3000 },
    );
  });
  it("print a doubt that is read back as it is shown, and a value that ends where the doubt does", () => {
    fc.assert(
      fc.property(
        withDoubt.chain((d) => fc.tuple(fc.constant(d), sized(d), fc.constantFrom("normal", "rectangular", "triangular"))),
        ([d, x, shape]) => {
          const spread = shape === "normal" ? { shape, u: x / 20 } : { shape: shape as "rectangular", half: x / 20 };
          const text = printQuantity(x, spread as Spread, d);
          const r = parseQuantity(text, d);
          expect(r.ok && r.value.spread.shape, text).toBe(shape);
          if (!r.ok) return;
          // half a unit of the one figure that 3 to 9 is told by, of the two of 10 to 29
          expect(Math.abs(standardUncertainty(r.value.spread) / standardUncertainty(spread as Spread) - 1)).toBeLessThan(0.5 / 3 + 1e-9);
          expect(Math.abs(r.value.value / x - 1)).toBeLessThan(0.05 * (0.5 / 3) + 1e-9);
          const [figure, doubt] = [...text.matchAll(/\d+(?:\.(\d+))?/g)];
          expect(figure[1]?.length ?? 0, text).toBe(doubt[1]?.length ?? 0);
          if (doubt[1] !== undefined) expect(doubt[0].replace(".", "").replace(/^0+/, "").length, text).toBeLessThanOrEqual(2);
        },
      ),
      { numRuns: 2000 },
    );
  });
  it("are never printed to more digits than they are known to", () => {
    expect(printValue(455123, "frequency", 87)).toBe("455.12 kHz");
    expect(printValue(455123, "frequency", 120)).toBe("455.12 kHz");
    expect(printValue(455123, "frequency", 870)).toBe("455.1 kHz");
    expect(printValue(455123, "frequency", 8700)).toBe("455 kHz");
    // nothing at all is no smallest prefix
    expect((["capacitance", "current", "inductance", "voltage"] as const).map((d) => printValue(0, d))).toEqual([
      "0 F",
      "0 A",
      "0 H",
      "0 V",
    ]);
    expect(printQuantity(110e-12, { shape: "rectangular", half: 5.5e-12 }, "capacitance")).toBe("110 ±6 pF");
  });
  it("are refused with a located issue, or read: nothing else, whatever the text", () => {
    const seeds = ["455 kc", "110 pF ±5%", "4k7", "S9+20", "-73 dBm", "1.5M", "22 µµF", "3 ft", "0,05 µF", "455 kHz u 0.2 kHz"];
    const mutated = fc
      .tuple(fc.constantFrom(...seeds), fc.nat(12), fc.string({ maxLength: 6 }), fc.nat(4))
      .map(([s, at, ins, cut]) => s.slice(0, at) + ins + s.slice(at + cut));
    fc.assert(
      fc.property(fc.constantFrom(...names), fc.oneof(mutated, fc.string({ maxLength: 200 })), (d, text) => {
        const r = parseQuantity(text, d, "here");
        if (r.ok) expect(Number.isFinite(r.value.value)).toBe(true);
        else expect(r.issues[0]).toMatchObject({ path: "here", code: expect.any(String), expected: expect.any(String) });
      }),
      { numRuns: 8000 },
    );
  });
});
