import { describe, expect, it } from "vitest";
import { loadForRatioF, pullBy, pulledRatio } from "./crystal-pull";

const crystal = { motionalF: 8e-15, holderF: 5e-12, loadF: 30e-12 };
/** Reactance of the loop: motional arm, and holder with load across it. */
function reactanceOhm(hz: number, loadF: number): number {
  const seriesHz = 1e6;
  const w = 2 * Math.PI * hz;
  const inductance = 1 / ((2 * Math.PI * seriesHz) ** 2 * crystal.motionalF);
  return w * inductance - 1 / (w * crystal.motionalF) - 1 / (w * (crystal.holderF + loadF));
}
describe("a crystal pulled by its load", () => {
  it("runs where the reactance round its loop is nothing", () => {
    for (const loadF of [5e-12, 30e-12, 200e-12]) {
      const hz = 1e6 * pulledRatio({ ...crystal, loadF });
      const slope = (reactanceOhm(hz * (1 + 1e-6), loadF) - reactanceOhm(hz * (1 - 1e-6), loadF)) / 2e-6;
      expect(Math.abs(reactanceOhm(hz, loadF) / slope)).toBeLessThan(1e-10);
    }
  });
  it.each([-100e-6, -60e-6, -1e-6, 1e-6, 60e-6, 400e-6])("the load for a change of %f gives it back", (change) => {
    const loadF = loadForRatioF(crystal, 1 + change)!;
    expect(pullBy(crystal, loadF - crystal.loadF)).toBeCloseTo(change, 12);
  });
  it("for a small change follows the slope -C1 / 2 (C0 + CL)^2, for 60 ppm takes twice what the slope says, and past 114 ppm there is none", () => {
    const slope = crystal.motionalF / (2 * (crystal.holderF + crystal.loadF) ** 2);
    const more = (ppm: number): number => loadForRatioF(crystal, 1 / (1 + ppm * 1e-6))! - crystal.loadF;
    expect(more(0.1) / (1e-7 / slope)).toBeCloseTo(1, 2);
    expect(more(60) * 1e12).toBeCloseTo(38.7, 1);
    expect(loadForRatioF(crystal, 1 / (1 + 120e-6))).toBeUndefined();
    expect(pullBy(crystal, 1) * 1e6).toBeCloseTo(-114.27, 1);
    // nor can less than nothing be across it
    expect(loadForRatioF(crystal, 1 + 1e-3)).toBeUndefined();
  });
});
