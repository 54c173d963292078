import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { sheetById } from "../index";
import { multiplierCentre } from "./sheet";
import theory from "./theory.md";

const on = (overrides: Record<string, string> = {}, draws = 40) =>
  orThrow(answer(multiplierCentre, emptyBench, { draws, points: 21, overrides }));
const value = (a: ReturnType<typeof on>, n: string): number => a.results[n].value!;
const other = (id: string, overrides: Record<string, string> = {}) => {
  const a = orThrow(answer(sheetById(id)!, emptyBench, { draws: 2, points: 11, overrides }));
  return (n: string): number => a.results[n].value!;
};

describe("against the other questions, which were checked by a second implementation of their own", () => {
  it("a cable with no coil, and with its coil tuned, is as the question on the cable has it, line and all", () => {
    const mine = on();
    const theirs = other("cable-load");
    expect(value(mine, "cableAlone")).toBeCloseTo(theirs("gainChange"), 1);
    expect(value(mine, "coilTuned")).toBeCloseTo(theirs("compensatingLoss"), 1);
  });
  it("the tank at a setting is as the question on what it gains has it, but for what the plate pulls", () => {
    for (const regeneration of ["0.5", "0.9"]) {
      const theirs = other("q-multiplier", { regeneration });
      expect(Math.abs(value(on({ regeneration }), "widthSet") / theirs("width6dB") - 1)).toBeLessThan(0.02);
      expect(Math.abs(value(on({ regeneration }), "tankSet") - theirs("gainAtPeak"))).toBeLessThan(0.3);
    }
  });
});
describe("a note", () => {
  it("of nothing is a peak on the carrier: nothing lost, even on both sides", () => {
    const a = on({ beat: "0 Hz" });
    expect(Math.abs(value(a, "offCentre"))).toBeLessThan(20);
    expect(Math.abs(value(a, "lost"))).toBeLessThan(1e-6);
    expect(a.findings.some((f) => f.id === "centre-note-yes")).toBe(true);
  });
  // universal resonance curve: a single circuit is 3 dB down at half its bandwidth off; Terman's and every handbook's, from memory
  it("of half the bandwidth loses 3 dB, as a single circuit does, where the nose is far narrower than the strip", () => {
    const regeneration = "0.99";
    const q = other("q-multiplier", { regeneration })("multipliedQ");
    const half = 455e3 / (2 * q);
    expect(value(on({ regeneration, beat: `${half} Hz` }), "lost")).toBeCloseTo(3.01, 1);
    expect(theory).toContain("56.9 Hz");
    expect(455e3 / (2 * 4000)).toBeCloseTo(56.9, 1);
  });
  it("loses alike on both sides, and more the narrower the nose", () => {
    const lost = (side: string, regeneration: string) => value(on({ beat: "300 Hz", side, regeneration }), "lost");
    expect(Math.abs(lost("high", "0.9") - lost("low", "0.9"))).toBeLessThan(0.6);
    expect(lost("high", "0.95")).toBeGreaterThan(lost("high", "0.8"));
  });
  it("far off is told to be turned to nothing, toward more capacitance where it is high", () => {
    const a = on({ beat: "900 Hz", side: "high", regeneration: "0.9" });
    const f = a.findings.find((x) => x.id === "centre-note-no")!;
    expect(f.do).toContain("toward more capacitance");
    expect(a.headline).toMatch(/off centre/);
  });
});
describe("the steps", () => {
  const a = on();
  it("stand in their order: carrier, can, cable, coil, tank, note, can again, without it", () => {
    const own = a.findings.filter((f) => /^centre-\d/.test(f.id)).map((f) => f.id);
    expect(own).toEqual([...own].sort());
    expect(own).toHaveLength(8);
  });
  it("with the coil on its peak nothing is won back by the can, and nothing is missing without the accessory", () => {
    const exactly = on({ coilError: "0" });
    expect(Math.abs(value(exactly, "retouched"))).toBeLessThan(0.02);
    expect(Math.abs(value(exactly, "leftWithout"))).toBeLessThan(0.02);
  });
  it("with the coil off the can wins back what it lost, and then is missing as much without it", () => {
    const off = on({ coilError: "0.02" });
    expect(value(off, "coilTuned")).toBeLessThan(value(on({ coilError: "0" }), "coilTuned"));
    expect(value(off, "retouched")).toBeGreaterThan(0.1);
    expect(value(off, "leftWithout")).toBeLessThan(-0.1);
  });
  it("oscillating has no width, and says so", () => {
    expect(on({ regeneration: "1.02" }).results.widthSet.why).toBe("it oscillates");
  });
});
