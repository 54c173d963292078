/** Second implementation: another program's cable table, wide strip, 29 pF/ft, at the tolerances it states. */
import { describe, expect, it } from "vitest";
import { StripResponse } from "../../physics/if-strip";
import { wide } from "../../physics/prototype-strips.testdata";
import { cableSolver } from "./solve";
import theory from "./theory.md";

const { solve: solveCable } = cableSolver();
const perM = 29e-12 / 0.3048;
const velocity = 1 / (perM * 53.5 * 299792458);
const at = (ft: number, cc: number) => ({
  strip: wide,
  cableLength: ft * 0.3048,
  cableCapacitancePerLength: perM,
  velocityFactor: velocity,
  couplingCapacitance: cc,
  slugRange: 0.12,
  trimmerRange: 40e-12,
  coilQ: 70,
  coilError: 0,
});

describe("a cable on the wide strip", () => {
  it.each([
    [1, 5e-12, 4.264706, -7.875856, -3.073278, -0.03431953],
    [1, 5e-9, 28.83277, -46.44292, -16.63887, -0.193726],
    [2, 5e-9, 57.33491, -80.71287, -22.52268, -0.3233143],
    [3, 5e-9, 85.51209, -107.3171, -25.97612, -0.4160927],
    [3, 100e-12, 46.52406, -68.75442, -20.72417, -0.2793834],
    [3, 22e-12, 17.55963, -30.03172, -12.50773, -0.1276511],
    [10, 100e-12, 74.35897, -97.48051, -24.7674, -0.3825858],
  ])("%f ft through %f F", (ft, cc, ceff, detune, gain, slug) => {
    const y = solveCable(at(ft, cc));
    expect(Math.abs(y.effectiveCapacitance * 1e12 - ceff)).toBeLessThan(1e-5);
    expect(Math.abs(y.primaryDetune / 1e3 - detune)).toBeLessThan(1e-4);
    // the prototype lumps the cable; the line conducts 0.06 % more at 10 ft
    expect(Math.abs(y.gainChange - gain)).toBeLessThan(0.02);
    expect(Math.abs(y.slugChange - slug)).toBeLessThan(1e-6);
    expect(y.trimmerChange).toBe(-y.effectiveCapacitance);
  });
  it.each([
    [1, -0.6604634],
    [2, -1.239615],
    [3, -1.753354],
  ])("re-peaked with %f ft straight on the plate the loss is only a little", (ft, loss) => {
    // the prototype searches the slug for the best gain, which lies 0.03 % beyond resonance
    expect(Math.abs(solveCable(at(ft, 1)).gainChangeAfterRepeak - loss)).toBeLessThan(0.004);
  });
  it.each([
    [2, 2.11e-3, 422e3, -1.5],
    [3, 1.406e-3, 281e3, -2.2],
    [4, 1.055e-3, 211e3, -2.8],
  ])("coil for %f ft", (ft, l, r, loss) => {
    const y = solveCable(at(ft, 1e-6));
    expect(Math.abs(y.compensatingInductance / l - 1)).toBeLessThan(5e-4);
    expect(Math.abs(y.coilParallelResistance / r - 1)).toBeLessThan(2e-3);
    expect(Math.abs(y.compensatingLoss - loss)).toBeLessThan(0.06);
  });
  it.each([
    [5, 442.4632],
    [22, 406.4974],
    [100, 310.3489],
  ])("the trap of a %f pF series capacitor with 87 pF of cable", (pf, khz) => {
    expect(Math.abs(solveCable(at(3, pf * 1e-12)).trapFrequency / 1e3 - khz)).toBeLessThan(1e-3);
  });
  it("a coil made for a cable a fifth longer, with 22 pF, puts the trap on the IF", () => {
    const off = (coilError: number) => solveCable({ ...at(3.2, 22e-12), coilError }).compensatingLoss;
    expect(off(-0.2)).toBeLessThan(-30);
    expect(off(0)).toBeGreaterThan(-3);
  });
  it.each([-0.2, 0.1, 0.5])(
    "a coil that is off by %f loses by its own inductance: the same load as impedances in series and side by side",
    (coilError) => {
      const x = { ...at(3, 22e-12), coilError };
      const f = wide.intermediateFrequency;
      const w = 2 * Math.PI * f;
      const cable = 1 / (w * 87e-12);
      // the coil that resonates the cable, made so much larger; its parallel resistance is Q times its own reactance
      const coil = cable * (1 + coilError);
      const [g, b] = [1 / (x.coilQ * coil), 1 / cable - 1 / coil];
      const size = g * g + b * b;
      const z = { re: g / size, im: -b / size - 1 / (w * 22e-12) };
      const y = { re: z.re / (z.re ** 2 + z.im ** 2), im: -z.im / (z.re ** 2 + z.im ** 2) };
      const strip = new StripResponse();
      strip.load(wide);
      const loss = 10 * Math.log10(strip.at(f, y.re, y.im) / strip.at(f));
      // the line conducts a little more than its lumped capacitance
      expect(Math.abs(solveCable(x).compensatingLoss - loss)).toBeLessThan(0.02);
      expect(solveCable(x).coilParallelResistance / (x.coilQ * coil)).toBeCloseTo(1, 6);
    },
  );
});

it("recomputes the worked example of its page", () => {
  const cans = [{ ...wide.cans[0], primaryCapacitance: 110e-12, outputCapacitance: 0 }, wide.cans[1]];
  const y = solveCable({ ...at(3, 1e-9), strip: { ...wide, cans }, coilQ: 60 });
  const row = (text: string) => Number(new RegExp(`\\| ${text} *\\| (-?[\\d.]+)`).exec(theory)![1]);
  expect(y.effectiveCapacitance * 1e12).toBeCloseTo(row("seen by the plate"), 1);
  expect(Math.abs((455e3 + y.primaryDetune) / 1e3 - row("primary falls to"))).toBeLessThan(0.5);
  expect(Math.abs(y.slugChange * 100 - row("slug must change L by"))).toBeLessThan(0.5);
  expect(Math.abs(y.compensatingInductance * 1e3 - row("coil in the accessory"))).toBeLessThan(5e-4);
  expect(Math.abs(y.coilParallelResistance / 1e3 - row("the coil's loss, Q 60"))).toBeLessThan(0.5);
});
