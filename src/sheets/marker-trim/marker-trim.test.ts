import { expect, it } from "vitest";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { answer } from "../answer";
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
it("the trimmer's change undoes the error, to first order, and goes up when the markers are high", () => {
  const y = solveTrim(base);
  const pull = (c: number) => base.motionalCapacitance / (2 * (base.shuntCapacitance + c));
  const moved = pull(base.loadCapacitance + (y.trimmerChange as number)) - pull(base.loadCapacitance);
  expect(y.trimmerChange as number).toBeGreaterThan(0);
  expect(Math.abs(moved / y.crystalError + 1)).toBeLessThan(0.3);
  expect(solveTrim({ ...base, sign: "markers-low" }).trimmerChange as number).toBeLessThan(0);
});
it("by ear the dead zone stays in the interval, by flutter it does not", () => {
  const width = (method: string) => {
    const f = ask({ method, beat: "2 Hz", sign: "markers-high" }).results.crystalError;
    return f.high! - f.low!;
  };
  expect(width("ear")).toBeGreaterThan(10 * width("flutter"));
});
it("asks for the nudge before it tells a turn, and warns of stations that share a channel or lie off the raster", () => {
  const unknown = ask({ beat: "2 Hz" });
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
