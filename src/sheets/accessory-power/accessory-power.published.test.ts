import { describe, expect, it } from "vitest";
import { solveSupply } from "../../physics/supply";
import { transformerRiseK, windingFallV } from "../../physics/transformer-load";
import { heaterOf, heaters, isHeatedApart } from "../../standards/heaters";
import theory from "./theory.md";

describe("heaters", () => {
  // Source: a web journal on tube circuits, July 2000, page 2 (read): two output tubes of 1.5 A and two 6SN7 of 0.6 A draw 4.2 A of a winding rated 5 A;
  // with a regulation of 10 % its volts without load are 6.93 V.
  it("adds up to the published sum, and the winding falls as its regulation says", () => {
    const sixSn7 = heaterOf("6SN7GT class")!;
    expect(sixSn7).toMatchObject({ volts: 6.3, ampere: 0.6 });
    expect(2 * 1.5 + 2 * sixSn7.ampere).toBeCloseTo(4.2, 12);
    const fall = (moreA: number) => windingFallV({ ratedV: 6.3, regulation: 0.1, loadA: 5, moreA });
    expect(6.3 + fall(5)).toBeCloseTo(6.93, 12);
    expect(6.93 - fall(4.2)).toBeCloseTo(6.4, 2);
    const said = Object.fromEntries([...theory.matchAll(/^\| ([a-z ]+?) +\| ([\d.]+) [AΩV] +\|$/gm)].map((m) => [m[1], Number(m[2])]));
    expect(said["heater current"]).toBeCloseTo(4.2, 9);
    expect(said["resistance of winding"]).toBeCloseTo(fall(1), 9);
    expect(said["volts at that load"]).toBeCloseTo(6.93 - fall(4.2), 2);
  });
  // Source: pages that quote the makers' sheets (read): 12AX7 6.3 V at 300 mA with its halves side by side, 12.6 V at 150 mA in series.
  it("has the double triode of a Q multiplier at 0.3 A; the same watts as in series", () => {
    const h = heaterOf("12AX7")!;
    expect(h.ampere).toBe(0.3);
    expect(h.volts * h.ampere).toBeCloseTo(12.6 * 0.15, 12);
  });
  it("names no type twice, gives every heater one to six watts, and leaves rectifiers of a 5 V winding out", () => {
    const names = heaters.flatMap((h) => h.types);
    expect(names.filter((n, i) => names.indexOf(n) !== i)).toEqual([]);
    for (const h of heaters) {
      expect(h.volts * h.ampere, h.types[0]).toBeGreaterThan(0.9);
      expect(h.volts * h.ampere, h.types[0]).toBeLessThan(8);
    }
    expect(["5Y3 class", "80", "6X4", "50C5"].map(isHeatedApart)).toEqual([true, true, false, false]);
  });
  // heaters of one string carry one current; source: the same manuals, from memory
  it("lets the tubes of a string of five carry one current, and their volts reach the line", () => {
    const string = ["12BE6", "12BA6", "12AV6", "50C5", "35W4"].map((t) => heaterOf(t)!);
    expect(new Set(string.map((h) => h.ampere))).toEqual(new Set([0.15]));
    expect(string.reduce((v, h) => v + h.volts, 0)).toBeCloseTo(122.8, 9);
  });
});
describe("the transformer", () => {
  it("stays as warm at its own load, by its iron alone with nothing drawn, and four times the copper's part at twice the load", () => {
    expect(transformerRiseK(40, 0.4, 1)).toBeCloseTo(40, 12);
    expect(transformerRiseK(40, 0.4, 0)).toBeCloseTo(16, 12);
    expect(transformerRiseK(40, 0.4, 2)).toBeCloseTo(16 + 4 * 24, 12);
  });
});
describe("a fall of B+", () => {
  // Source: the exact limit of a large capacitor behind a resistance, tan t - t = pi Rs/(2 R), V = E cos t; Schade 1943 has it as the edge of his charts.
  it("is that of the closed form where more is drawn from a large capacitor", () => {
    const volts = (ampere: number): number =>
      solveSupply(
        {
          plateV: 250,
          lineHz: 60,
          fullWave: true,
          sourceOhm: 200,
          diode: { drop: 0 },
          first: { farad: 5e-3, ampere, siemens: 0 },
          sections: [{ ohm: 1, henry: 0, farad: 0, ampere: 0, siemens: 0 }],
        },
        { steps: 768 },
      )!.volts[0];
    const closed = (ampere: number): number => {
      const e = Math.SQRT2 * 250;
      let [low, high] = [0, Math.PI / 2 - 1e-9];
      for (let i = 0; i < 200; i++) {
        const t = (low + high) / 2;
        // R = V / I with V = E cos t
        if (Math.tan(t) - t > (Math.PI * 200 * ampere) / (2 * e * Math.cos(t))) high = t;
        else low = t;
      }
      return e * Math.cos(low);
    };
    for (const [a, b] of [
      [0.05, 0.1],
      [0.08, 0.12],
    ]) {
      expect(Math.abs(volts(a) / closed(a) - 1)).toBeLessThan(0.001);
      expect(Math.abs((volts(a) - volts(b)) / (closed(a) - closed(b)) - 1)).toBeLessThan(0.001);
    }
  });
});
