import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { sheetById } from "../index";
import { solveTrim } from "./solve";
import theory from "./theory.md";

const base = {
  method: "flutter",
  sign: "markers-high",
  stationFrequency: 5e6,
  beat: 120,
  deadZone: 30,
  path: 0,
  target: 28e6,
  wanted: 50,
  motionalCapacitance: 8e-15,
  shuntCapacitance: 5e-12,
  loadCapacitance: 30e-12,
  trimmerTravel: 10e-12,
} as const;
const ask = (overrides: Record<string, string>) =>
  orThrow(answer(sheetById("marker-trim")!, emptyBench, { draws: 400, points: 11, overrides: { chassis: "isolated", ...overrides } }));

it("recomputes the worked example of its page", () => {
  const row = (text: string) => Number(new RegExp(`\\| ${text} *\\| ([\\d.]+)`).exec(theory)![1]);
  const y = solveTrim(base);
  expect(y.crystalError * 1e6).toBeCloseTo(row("error"), 9);
  expect(y.errorAtTarget).toBeCloseTo(row("at 28 MHz"), 9);
  expect(y.errorAt100k).toBeCloseTo(row("at 100 kHz"), 9);
});
it("the trimmer's change undoes the error, to the last of it, and goes up when the markers are high", () => {
  const y = solveTrim(base);
  const at = (c: number) => Math.sqrt(1 + base.motionalCapacitance / (base.shuntCapacitance + c));
  const change = y.trimmerChange as number;
  expect(change).toBeGreaterThan(0);
  expect((at(base.loadCapacitance + change) / at(base.loadCapacitance)) * (1 + y.crystalError)).toBeCloseTo(1, 12);
  expect(solveTrim({ ...base, sign: "markers-low" }).trimmerChange as number).toBeLessThan(0);
});
it("60 ppm takes 38.7 pF, and what no capacitance pulls is refused with what the trimmer can", () => {
  expect((solveTrim({ ...base, beat: 300 }).trimmerChange as number) * 1e12).toBeCloseTo(38.7, 1);
  expect(solveTrim({ ...base, beat: 2500 }).trimmerChange).toEqual({ none: expect.stringContaining("no capacitance") });
  const exactly = {
    motionalCapacitance: "8 fF ±0",
    shuntCapacitance: "5 pF ±0",
    loadCapacitance: "30 pF ±0",
    trimmerTravel: "10 pF ±0",
    stationFrequency: "5 MHz",
  };
  for (const beat of ["300 Hz", "2500 Hz"]) {
    const f = ask({ ...exactly, beat, sign: "markers-high" }).findings;
    const beyond = f.find((x) => x.id === "trim-beyond")!;
    // 8 fF over 35 and over 45 pF: 25.4 ppm
    expect(beyond.says).toContain("it can lower the crystal by 25.4 ppm");
    expect(beyond.state).toBe("open-dead");
    expect(f.map((x) => x.id)).not.toContain("trim-turn");
  }
  expect(ask({ ...exactly, beat: "100 Hz", sign: "markers-high" }).findings.map((x) => x.id)).toContain("trim-turn");
});
it("asks for no turn where it is good enough as it is", () => {
  const f = ask({ beat: "0.1 Hz", sign: "markers-high" }).findings;
  expect(f.find((x) => x.id === "trim-good-yes")!.says).toContain("leave the trimmer alone");
  expect(f.filter((x) => /^trim-(turn|sign|beyond)/.test(x.id))).toEqual([]);
});
it("by ear the dead zone stays in the interval, by flutter it does not", () => {
  const width = (method: string) => {
    const f = ask({ method, beat: "2 Hz", sign: "markers-high" }).results.crystalError;
    return f.high! - f.low!;
  };
  expect(width("ear")).toBeGreaterThan(10 * width("flutter"));
});
it("asks for the nudge before it tells a turn, and warns of stations that share a channel or lie off the raster", () => {
  const unknown = ask({ beat: "20 Hz" });
  expect(unknown.results.trimmerChange.why).toContain("nudge");
  expect(unknown.findings.map((f) => f.id)).toEqual(expect.arrayContaining(["trim-sign", "trim-several"]));
  // before a beat is read: the traps, and no word of a turn
  const before = ask({ sign: "markers-high" }).findings.map((f) => f.id);
  expect(before).toEqual(expect.arrayContaining(["not-read-beat", "trim-several"]));
  expect(before.filter((id) => /turn|good|ear/.test(id))).toEqual([]);
  expect(ask({ stationFrequency: "9.996 Mc" }).findings.map((f) => f.id)).toEqual(
    expect.arrayContaining(["trim-raster", "trim-station-rwm"]),
  );
});
