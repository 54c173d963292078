/** Laws and limiting cases. */
import { describe, expect, it } from "vitest";
import { perveanceOf, solveSupply } from "./supply";
import type { Supply } from "./supply-numbers";

const tube = (dropV: number, atA: number) => ({ perveance: perveanceOf(dropV, atA), drop: 0 });
const silicon = { drop: 0.9 };
const capacitorInput = (plateV: number, sourceOhm: number, farad: number, ampere: number, diode: Supply["diode"]): Supply => ({
  plateV,
  lineHz: 60,
  fullWave: true,
  sourceOhm,
  diode,
  first: { farad, ampere, siemens: 0 },
  sections: [],
});

describe("what must hold for any supply", () => {
  const base = capacitorInput(300, 150, 20e-6, 0, tube(50, 0.125));
  const loaded = (ampere: number): Supply => ({
    ...base,
    sections: [
      { ohm: 300, henry: 8, farad: 20e-6, ampere, siemens: 0 },
      { ohm: 2200, henry: 0, farad: 20e-6, ampere: 0.02, siemens: 0 },
    ],
  });
  it("more load raises no node, and more line lowers none", () => {
    let before = solveSupply(loaded(0))!.volts;
    for (const a of [0.01, 0.03, 0.06, 0.1]) {
      const now = solveSupply(loaded(a))!.volts;
      for (const [k, v] of now.entries()) expect(v).toBeLessThan(before[k]);
      before = now;
    }
    const high = solveSupply({ ...loaded(0.05), plateV: 320 })!.volts;
    for (const [k, v] of solveSupply(loaded(0.05))!.volts.entries()) expect(high[k]).toBeGreaterThan(v);
  });
  it("DC in the series elements is that of their loads, and charge balances at the rectifier", () => {
    const r = solveSupply(loaded(0.05), { steps: 400 })!;
    expect(r.volts[0] - r.volts[1]).toBeCloseTo(300 * 0.07, 1);
    expect(r.volts[1] - r.volts[2]).toBeCloseTo(2200 * 0.02, 2);
    expect(2 * r.plateMeanA).toBeCloseTo(0.07, 4);
  });
  it("without a load the first capacitor stands at the crest", () => {
    const r = solveSupply({ ...capacitorInput(300, 150, 20e-6, 1e-7, silicon) })!;
    expect(r.volts[0]).toBeCloseTo(300 * Math.SQRT2 - 0.9, 0);
  });
  it("begun from a like supply it is the same to a tenth of a volt", () => {
    const like = solveSupply(loaded(0.05))!;
    const other = { ...loaded(0.06), plateV: 310 };
    for (const [k, v] of solveSupply(other, { like })!.volts.entries()) expect(v).toBeCloseTo(solveSupply(other)!.volts[k], 1);
  });
});
