import { expect, it } from "vitest";
import { markingRows, nearestPair } from "./pairs";

const pf = (v: number): number => Number((v * 1e12).toPrecision(6));
it("takes one standard capacitor where one does, and two side by side where they come nearer", () => {
  expect(pf(nearestPair(15.1e-12).firstF)).toBe(15);
  expect(nearestPair(15.1e-12).secondF).toBe(0);
  const two = nearestPair(14.2e-12);
  expect([pf(two.firstF), pf(two.secondF)]).toEqual([12, 2.2]);
});
it("comes within 4 % of anything from 2 to 1000 pF, within 2 % from 10 pF up", () => {
  for (let wanted = 2e-12; wanted < 1e-9; wanted *= 1.07) {
    const { firstF, secondF } = nearestPair(wanted);
    expect(Math.abs((firstF + secondF) / wanted - 1), `${pf(wanted)} pF`).toBeLessThan(wanted < 10e-12 ? 0.04 : 0.02);
  }
});
it("leaves of -30 ppm per kelvin what the rounding leaves: identities of the circuit", () => {
  for (const [marking, wanted, first, second, left] of markingRows(-30e-6, 150e-12, 0) as [string, number, number, number, number][]) {
    const n = Number(marking.slice(1)) * 1e-6;
    expect(wanted * n).toBeCloseTo(2 * 30e-6 * 150e-12, 18);
    const sum = first + (Number.isNaN(second) ? 0 : second);
    // the circuit's relative drift is minus half its capacitance's
    expect(left).toBeCloseTo(-30e-6 + (0.5 * sum * n) / 150e-12, 12);
    expect(Math.abs(left)).toBeLessThan(1.3e-6);
  }
});
