/** Laws and limiting cases. */
import { describe, expect, it } from "vitest";
import { lampInSeries } from "./lamp";

describe("tungsten lamps", () => {
  it("a dead short takes the lamp's own current and no volts; only the ratio of the powers counts", () => {
    const short = lampInSeries(120, 100, 120, 0);
    expect(short.setV).toBeCloseTo(0, 6);
    expect(short.ampere).toBeCloseTo(100 / 120, 6);
    const pair = (lamp: number, set: number) => lampInSeries(120, lamp, 120, 120 ** 2 / set).setV;
    expect(pair(60, 200)).toBeCloseTo(30.6, 1);
    expect(pair(100, 100)).toBeCloseTo(pair(150, 150), 6);
  });
  it("begun from a lamp beside it, dimmer or brighter, it is the same", () => {
    for (const ohm of [20, 144, 600, 5000])
      for (const beside of [0.7, 1.4]) {
        const from = lampInSeries(120, 100, 120, ohm * beside).lampV;
        expect(lampInSeries(120, 100, 120, ohm, from).setV).toBeCloseTo(lampInSeries(120, 100, 120, ohm).setV, 8);
      }
  });
});
