/** Second implementation: figures worked out apart from this code. */
import { describe, expect, it } from "vitest";
import { lampInSeries, loadBehindLamp } from "./lamp";

describe("tungsten lamps", () => {
  it.each([
    [25, 30, 65.1, 0.136],
    [40, 60, 56.4, 0.235],
    [60, 100, 52.5, 0.364],
    [100, 30, 108.8, 0.227],
    [100, 60, 91.2, 0.38],
    [100, 200, 46.0, 0.639],
    [150, 100, 87.6, 0.608],
  ])("%i W lamp before a set of %i W at 120 V leaves %f V, %f A (worked out apart from this code)", (lamp, set, volts, ampere) => {
    const r = lampInSeries(120, lamp, 120, 120 ** 2 / set);
    expect(r.setV).toBeCloseTo(volts, 1);
    expect(r.ampere).toBeCloseTo(ampere, 3);
  });
  it("an invented set of 65 W: 100 W lamp: 88.5 V and 0.40 A; 44 V found is about 212 W, 112 V about 24 W", () => {
    const r = lampInSeries(120, 100, 120, 120 ** 2 / 65);
    expect(r.setV).toBeCloseTo(88.5, 0);
    expect(r.ampere).toBeCloseTo(0.4, 2);
    expect(Math.abs(loadBehindLamp(120, 100, 120, 44, 120) / 212 - 1)).toBeLessThan(0.01);
    expect(Math.abs(loadBehindLamp(120, 100, 120, 112, 120) / 24 - 1)).toBeLessThan(0.03);
  });
});
