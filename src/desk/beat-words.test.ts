import { describe, expect, it } from "vitest";
import { beatOf, multipleOfSwell, sayBeat } from "./beat-words";

const tone = (meanHz: number) => ({ meanHz, uHz: 1e-4, readings: [] });
const swell = (hz: number) => ({ hz, uHz: 1e-3, beatsCount: 20 * hz, depthDb: 6 });
const clockU = 1e-4 / Math.sqrt(3);

describe("a beat and its carrier", () => {
  it("is given in ppm with its interval, by a tone or by a swell", () => {
    expect(sayBeat({ tone: tone(62) }, 10e6, clockU)).toEqual(["That is 6.2000 ppm (6.1993 to 6.2007) of the carrier."]);
    expect(sayBeat({ swell: swell(3) }, 10e6, clockU).join(" ")).toContain("0.30000 ppm (0.29980 to 0.30020) of the carrier");
    expect(sayBeat({ tone: tone(62) }, undefined, clockU)).toEqual([]);
  });
  it("is the swell where the tone is a multiple of it, and says so", () => {
    const both = { tone: tone(28), swell: swell(14) };
    expect(multipleOfSwell(both)).toBe(2);
    expect(beatOf(both)).toEqual({ hz: 14, uHz: 1e-3, method: "flutter" });
    expect(sayBeat(both, 10e6, clockU)[1]).toContain("2 times that");
    expect(multipleOfSwell({ tone: tone(29), swell: swell(14) })).toBeUndefined();
  });
  it("is the tone where hum beside it makes the swell, and says so", () => {
    const both = { tone: tone(62), swell: swell(2) };
    expect(beatOf(both)?.hz).toBe(62);
    expect(sayBeat(both, 10e6, clockU)[1]).toMatch(/hum at 60 Hz .*6\.2000 ppm .*With the BFO on it would be the swell/);
    // two carriers heard beside the BFO: no hum is near
    expect(beatOf({ tone: tone(800), swell: swell(2) })?.hz).toBe(2);
  });
});
