import { describe, expect, it } from "vitest";
import { piPad } from "./pad";

describe("a pi pad", () => {
  // source: table of resistors for 50 ohm pads in steps of 1 dB, as published on the web (read): three figures, or one decimal
  it.each([
    [1, 870, 5.8],
    [2, 436, 11.6],
    [3, 292, 17.6],
  ])("of %d dB in 50 ohm has the printed resistors", (db, shunt, series) => {
    const pad = piPad(db, 50);
    expect(Math.abs(pad.shuntOhm - shunt)).toBeLessThan(0.5);
    expect(Math.abs(pad.seriesOhm - series)).toBeLessThan(0.05);
  });
  it("of 15 dB in 600 ohm as worked on the web (read: 859.54 and 1633.67 ohm, K rounded to 5.6234)", () => {
    const pad = piPad(15, 600);
    expect(Math.abs(pad.shuntOhm - 859.54)).toBeLessThan(0.02);
    expect(Math.abs(pad.seriesOhm - 1633.67)).toBeLessThan(0.05);
  });
  it("takes off what it says and shows its own resistance, by Kirchhoff alone", () => {
    for (const [db, z] of [
      [0.1, 50],
      [6, 300],
      [40, 75],
    ] as const) {
      const { seriesOhm, shuntOhm } = piPad(db, z);
      const far = 1 / (1 / shuntOhm + 1 / z);
      expect(1 / (1 / shuntOhm + 1 / (seriesOhm + far))).toBeCloseTo(z, 9);
      expect(20 * Math.log10((seriesOhm + far) / far)).toBeCloseTo(db, 9);
    }
  });
  it("is refused for no loss", () => expect(() => piPad(0, 50)).toThrow(/pi pad/));
});
