import { describe, expect, it } from "vitest";
import { lampColdShare, lampExponent, lampInSeries, loadBehindLamp } from "./lamp";

/** Source: an encyclopedia's text on re-rating lamps that cites a handbook, a maker's sheet (read); the rest recomputed from the same law. */
describe("tungsten lamps", () => {
  it("100 W at 120 V: 144 ohm hot, about 9.5 cold (encyclopedia text, read)", () => {
    expect(120 ** 2 / 100).toBe(144);
    expect(144 * lampColdShare).toBeCloseTo(9.5, 1);
  });
  it("12 % less volts: 7 % less current and 18 % less power (lamp text, read)", () => {
    expect(0.88 ** lampExponent).toBeCloseTo(0.93, 2);
    expect(0.88 ** (1 + lampExponent)).toBeCloseTo(0.82, 2);
  });
  it.each([
    [25, 30, 65.1, 0.136],
    [40, 60, 56.4, 0.235],
    [60, 100, 52.5, 0.364],
    [100, 30, 108.8, 0.227],
    [100, 60, 91.2, 0.38],
    [100, 200, 46.0, 0.639],
    [150, 100, 87.6, 0.608],
  ])("%i W lamp before a set of %i W at 120 V leaves %f V, %f A (reference text, recomputed)", (lamp, set, volts, ampere) => {
    const r = lampInSeries(120, lamp, 120, 120 ** 2 / set);
    expect(r.setV).toBeCloseTo(volts, 1);
    expect(r.ampere).toBeCloseTo(ampere, 3);
  });
  it("a dead short takes the lamp's own current and no volts; only the ratio of the powers counts", () => {
    const short = lampInSeries(120, 100, 120, 0);
    expect(short.setV).toBeCloseTo(0, 6);
    expect(short.ampere).toBeCloseTo(100 / 120, 6);
    const pair = (lamp: number, set: number) => lampInSeries(120, lamp, 120, 120 ** 2 / set).setV;
    expect(pair(60, 200)).toBeCloseTo(30.6, 1);
    expect(pair(100, 100)).toBeCloseTo(pair(150, 150), 6);
  });
  it("scenario E1: 100 W lamp, set of 65 W: 88.5 V and 0.40 A; 44 V found is about 212 W, 112 V about 24 W", () => {
    const r = lampInSeries(120, 100, 120, 120 ** 2 / 65);
    expect(r.setV).toBeCloseTo(88.5, 0);
    expect(r.ampere).toBeCloseTo(0.4, 2);
    expect(Math.abs(loadBehindLamp(120, 100, 120, 44, 120) / 212 - 1)).toBeLessThan(0.01);
    expect(Math.abs(loadBehindLamp(120, 100, 120, 112, 120) / 24 - 1)).toBeLessThan(0.03);
  });
});
