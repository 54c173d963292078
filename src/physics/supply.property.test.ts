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
  it.each([
    ["a tube rectifier", {}],
    ["silicon", { diode: silicon }],
    ["half waves", { fullWave: false }],
    ["choke input", { first: { farad: 0, ampere: 0, siemens: 0 } }],
    ["no section", { sections: [], first: { farad: 20e-6, ampere: 0, siemens: 2e-4 } }],
    ["nothing drawn", { sections: [], diode: silicon }],
  ])(
    "begun from a like supply it is the same to 10 mV, %s: what is left of a start is a period's 0.1 mV, over what a period makes up",
    (_, of) => {
      const like = solveSupply({ ...loaded(0.05), ...of })!;
      const other = { ...loaded(0.06), ...of, plateV: 310, sourceOhm: 170, lineHz: 58 };
      for (const [k, v] of solveSupply(other, { like })!.volts.entries())
        expect(Math.abs(v - solveSupply(other)!.volts[k])).toBeLessThan(0.01);
    },
  );
  it("begun from one that is far from it, too: two thirds of the volts, five times the load", () => {
    const like = solveSupply(loaded(0.01))!;
    const other = { ...loaded(0.05), plateV: 200, sourceOhm: 40 };
    for (const [k, v] of solveSupply(other, { like })!.volts.entries())
      expect(Math.abs(v - solveSupply(other)!.volts[k])).toBeLessThan(0.01);
  });
});
