import { describe, expect, it } from "vitest";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { answer } from "../answer";
import { causesOf } from "./explain";
import { bPlus } from "./sheet";
import { type BPlusInputs, restoringOhm, solveChanged } from "./solve";
import theory from "./theory.md";

const base: BPlusInputs = {
  arrangement: "full-wave",
  rectifierType: "5Y3GT or 80",
  originalRectifier: "5Y3GT or 80",
  rectifierDrop: 50,
  rectifierCurrent: 0.125,
  lineVoltage: 117,
  ratedLine: 117,
  lineFrequency: 60,
  highLine: 127 / 117,
  secondaryVoltage: 325,
  secondaryResistance: 150,
  primaryResistance: 0,
  addedResistance: 0,
  filterInput: "capacitor",
  firstCapacitance: 20e-6,
  firstChoke: 8,
  firstResistance: 250,
  secondCapacitance: 20e-6,
  secondChoke: 0,
  secondResistance: 1500,
  thirdCapacitance: 10e-6,
  plateCurrent: 0.05,
  restCurrent: 0.03,
  bleeder: 1e9,
  capacitorRating: 450,
  measuredFirst: 0,
  measuredHeater: 0,
  heaterRated: 6.3,
};
const ask = (overrides: Record<string, string>) => orThrow(answer(bPlus, emptyBench, { draws: 100, overrides }));
const asFound = {
  rectifierType: "5Y3GT or 80",
  secondaryVoltage: "325 V",
  secondaryResistance: "150",
  primaryResistance: "0",
  firstCapacitance: "20 uF",
  plateCurrent: "50 mA",
  restCurrent: "30 mA",
  bleeder: "100 Meg",
  lineVoltage: "120 V",
};

describe("scenario E2 of the reference text: chart 334 V at 117 V, found 412 V at 120 V, heaters 6.46 V", () => {
  const causes = causesOf({ ...base, lineVoltage: 120, measuredFirst: 412, measuredHeater: 6.46 }, 4);
  const of = (id: string) => causes.find((c) => c.id === id)!;
  it("the chart's own volts: 334.1 with the tube, 402 with silicon", () => {
    expect(Math.abs(solveChanged(base)!.volts[0] - 334.1)).toBeLessThan(1);
    expect(Math.abs(solveChanged(base, { silicon: true })!.volts[0] - 402.1)).toBeLessThan(1.5);
  });
  it("rules the line out and returns silicon and a light load as a tie", () => {
    expect(of("line").fits).toBe(false);
    expect(of("line").says).toContain("where the heaters say 120 V");
    expect(
      causes
        .filter((c) => c.fits)
        .map((c) => c.id)
        .sort(),
    ).toEqual(["light-load", "silicon"]);
    // 20 mA on the tube gives what 80 mA on silicon gives
    expect(of("light-load").ampere).toBeLessThan(0.03);
    expect(of("silicon").ampere).toBeGreaterThan(0.07);
  });
  it("says both, and what separates them, with the cautions of the place", () => {
    const a = ask({ ...asFound, measuredFirst: "412 V", measuredHeater: "6.46 V" });
    const f = a.findings.find((x) => x.id === "b-plus-tie")!;
    expect(f.says).toContain("It is not the line");
    expect(f.says).toContain("silicon in place of the rectifier tube");
    expect(f.says).toContain("a light load");
    for (const words of ["series resistor", "cathode volts of the output tube", "two seconds after switching on"])
      expect(f.do).toContain(words);
    expect(f.hazards).toEqual(expect.arrayContaining(["b-plus", "line", "stored-charge"]));
  });
  it("a healthy reading is called healthy, and ties with what it can't show", () => {
    const a = ask({ ...asFound, lineVoltage: "117 V", measuredFirst: "334 V", measuredHeater: "6.3 V" });
    expect(a.findings.some((x) => x.id === "b-plus-as-expected")).toBe(true);
    expect(a.findings.some((x) => x.id === "b-plus-tie")).toBe(false);
  });
  it("low volts are a weak rectifier, a lost first capacitor, a heavy load or a dead half: a tie where they tie", () => {
    const low = causesOf({ ...base, measuredFirst: 290 }, 4).filter((c) => c.fits);
    expect(low.map((c) => c.id)).toEqual(expect.arrayContaining(["weak-rectifier", "heavy-load", "first-capacitor"]));
    // their ripple tells them apart
    expect(low.find((c) => c.id === "first-capacitor")!.rippleV).toBeGreaterThan(3 * low.find((c) => c.id === "weak-rectifier")!.rippleV);
  });
});

describe("silicon and what restores the tube's volts", () => {
  it("348 ohm per plate, 850 ohm in the DC lead, 499 V with nothing drawn at 127 V (reference text 1.7, a cross-check)", () => {
    expect(Math.abs(restoringOhm(base) / 348 - 1)).toBeLessThan(0.03);
    const a = ask({ ...asFound, lineVoltage: "117 V", rectifierType: "silicon" });
    expect(Math.abs(a.results.restoringDc.value! / 850 - 1)).toBeLessThan(0.03);
    expect(a.results.noLoad.value).toBeCloseTo(498.9, 0);
    const f = a.findings.find((x) => x.id === "b-plus-silicon-in")!;
    expect(f.do).toContain("330 Ω");
    expect(a.parts.map((p) => p.part).join()).toContain("two in series");
    expect(a.parts.find((p) => p.part.startsWith("resistor in each plate"))).toMatchObject({ value: "330 Ω", quantity: 2 });
  });
});

describe("what a physics checker and a newcomer found", () => {
  const choke = (henry: number, ampere: number): BPlusInputs => ({
    ...base,
    secondaryVoltage: 300,
    secondaryResistance: 120,
    primaryResistance: 5,
    filterInput: "choke",
    firstChoke: henry,
    plateCurrent: ampere * 0.6,
    restCurrent: ampere * 0.4,
    bleeder: 50e3,
  });
  it("choke input is solved where the choke runs dry and B+ soars: 311.6 V at 2 H, 15 and 10 mA (his own simulation)", () => {
    const r = solveChanged({ ...choke(2, 0.025) })!;
    expect(Math.abs(r.volts[1] / 311.6 - 1)).toBeLessThan(0.03);
    for (const henry of [1, 1.5, 2.4, 2.8, 4, 6, 8])
      for (const a of [0.005, 0.025, 0.08]) expect(solveChanged(choke(henry, a)), `${henry} H ${a} A`).toBeDefined();
  });
  it("more than the supply can give is no answer, not a negative voltage", () => {
    expect(solveChanged({ ...base, plateCurrent: 0.9, restCurrent: 0.1 })).toBeUndefined();
    const a = ask({ ...asFound, plateCurrent: "900 mA", restCurrent: "100 mA" });
    expect(a.results.bPlusFirst.why).toContain("can't give this load");
  });
  it("a winding's heat is of both half cycles in a bridge, and of no resistor that was added", () => {
    const heat = (more: Record<string, string>) => ask({ ...asFound, lineVoltage: "117 V", ...more }).results.windingHeat.value!;
    expect(heat({ rectifierType: "silicon", addedResistance: "330 ohm" })).toBeLessThan(heat({ rectifierType: "silicon" }));
    const full = ask({ ...asFound, rectifierType: "silicon" }).results;
    const bridge = ask({ ...asFound, rectifierType: "silicon", arrangement: "bridge" }).results;
    expect(bridge.windingHeat.value! / full.windingHeat.value!).toBeCloseTo(1, 1);
  });
  it("a supply already restored by a resistor asks for no second one", () => {
    const a = ask({ ...asFound, lineVoltage: "117 V", rectifierType: "silicon", addedResistance: "342 ohm" });
    expect(a.results.restoringPerPlate.value!).toBeLessThan(15);
  });
  it("stops where the reading is impossible, over the capacitors, or nearly dead; and says when heaters are off", () => {
    const first = (more: Record<string, string>) => ask({ ...asFound, lineVoltage: "117 V", ...more }).findings[0];
    expect(first({ measuredFirst: "600 V" })).toMatchObject({ id: "b-plus-too-high", severity: "danger" });
    expect(first({ measuredFirst: "3 V" })).toMatchObject({ id: "b-plus-nearly-dead", severity: "danger" });
    expect(first({ measuredFirst: "3 V" }).do).not.toContain("switch on");
    const heaters = ask({ ...asFound, lineVoltage: "117 V", measuredFirst: "360 V", measuredHeater: "7.6 V" }).findings.find(
      (f) => f.id === "b-plus-heaters",
    )!;
    expect(heaters.says).toContain("21 % over");
  });
});

it.each([
  [{ secondaryResistance: "-5" }, "secondaryResistance", "not-positive"],
  [{ lineVoltage: "12 V" }, "lineVoltage", "too-small"],
  [{ rectifierType: "5Q9" }, "rectifierType", "not-an-option"],
])("refuses %j at its field", (overrides, path, code) => {
  const r = answer(bPlus, emptyBench, { draws: 10, overrides: overrides as never });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});

it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| (tube|silicon)(?: with (\d+) ohm at each plate)?\s+\| ([\d.]+) V \|/g)];
  expect(rows).toHaveLength(3);
  for (const [, kind, ohm, volts] of rows) {
    const r = solveChanged(base, kind === "tube" ? {} : { silicon: true, addedOhm: Number(ohm ?? 0) })!;
    expect(Math.abs(r.volts[0] - Number(volts)), kind).toBeLessThan(0.15);
  }
});
