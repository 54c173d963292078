import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { aboutFigure, sayCell, sayFigure } from "../../ask/say";
import { rankCauses } from "../../infer/stage/rank-causes";
import { tests } from "../../infer/stage/tests";
import { studiedStage } from "../../invented/stage";
import { benchOfSet } from "../../job/view";
import { solveStage } from "../../physics/tube-stage";
import { emptyBench } from "../../set/bench";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import type { Asked } from "./ask";
import { suspects } from "./sheet";
import { stageOf } from "./solve";
import theory from "./theory.md";

const bench = benchOfSet(patterns[1], "stages.if1");
const ask = (overrides: Record<string, string>, at = bench) =>
  orThrow(answer(suspects, at, { draws: 10, overrides: { screenFeed: "33k", ...overrides } }));
const causes = (a: ReturnType<typeof ask>): string[] => a.tables.find((t) => t.id === "causes")!.rows.map((r) => String(r[0]));
const chance = (a: ReturnType<typeof ask>, cause: string): number =>
  Number(a.tables.find((t) => t.id === "causes")!.rows.find((r) => String(r[0]).startsWith(cause))?.[2] ?? 0);
const e4 = "plate,236;screen,65.2;cathode,0.576";

describe("an invented stage, worked out apart from this code: screen 65.2 V, cathode 0.576 V", () => {
  const a = ask({ readings: e4 });
  it("is a tie of the screen resistor and its bypass, said as one, with the resistor cold as what decides", () => {
    expect(a.results.tied.value).toBe(2);
    expect(new Set(causes(a).slice(0, 2))).toEqual(new Set(["screen resistor drifted", "screen bypass capacitor leaky or shorted"]));
    expect(a.headline).toMatch(/^A tie: .*can't tell them apart. Measure next: the screen resistor, cold/);
    expect(a.findings.find((f) => f.id === "suspects-next-screen-ohm")!.hazards).toContain("stored-charge");
  });
  it("33.4 kohm cold leaves the bypass, 78.9 kohm the resistor", () => {
    expect(chance(ask({ readings: e4, tests: "screen-ohm,33.4k" }), "screen bypass")).toBeGreaterThan(0.99);
    expect(chance(ask({ readings: e4, tests: "screen-ohm,78.9k" }), "screen resistor")).toBeGreaterThan(0.99);
  });
  it("a step wants of the set what its test wants: dead where it is done unplugged, live where the volts are read", () => {
    for (const readings of [e4, "plate,236", "plate,40;screen,65.2;cathode,0.576", "plate,250;screen,102;cathode,3;grid,1.2", "plate,12"])
      for (const tried of ["", "screen-ohm,33.4k", "screen-ohm,33.4k;cathode-ohm,68"])
        for (const f of ask({ readings, ...(tried ? { tests: tried } : {}) }).findings) {
          const test = tests.find((t) => f.id === `suspects-next-${t.id}`);
          if (test) expect(f.state, f.id).toBe(test.state);
          if (/^set unplugged/i.test(f.do ?? "")) expect(f.state, f.do).toBe("open-dead");
        }
  });
  it("asks for a part only once one cause is left", () => {
    expect(a.parts).toEqual([]);
    expect(ask({ readings: e4, tests: "screen-ohm,78.9k" }).parts[0]).toMatchObject({
      part: "screen resistor",
      value: "33 kΩ",
      rating: "2 W",
    });
    expect(ask({ readings: e4, tests: "screen-ohm,33.4k" }).parts[0]).toMatchObject({ part: "capacitor, screen bypass", rating: "630 V" });
  });
  it("tells the heat in the resistor both ways: 1.04 W with the leak, 0.43 W drifted up", () => {
    const says = a.findings.find((f) => f.id === "suspects-screen-heat")!.says;
    const [leak, drift] = [...says.matchAll(/([\d.]+) (m?)W/g)].map((m) => Number(m[1]) / (m[2] ? 1000 : 1));
    expect(Math.abs(leak / 1.04 - 1)).toBeLessThan(0.02);
    expect(Math.abs(drift / 0.43 - 1)).toBeLessThan(0.05);
  });
});

describe("an invented output stage, worked out apart from this code: output grid at +1.4 V, 150 V before it, 470 kohm", () => {
  const audio = benchOfSet(patterns[1], "stages.audio");
  const read = { readings: "plate,250;screen,250;cathode,13.2;grid,1.4", supply: "262 V", cathodeResistor: "250", screenFeed: "100" };
  const a = ask(read, audio);
  it("is a leak of 49.9 Mohm, or gas, or the line behind it: lifting the driver end decides, and it is a danger", () => {
    // 470k (150 - 1.4)/1.4 is 49.9 megohm with no meter on the grid; with 10 megohm beside the 470 kohm it is 47.6
    const gridOhm = 1 / (1 / 470e3 + 1 / 10e6);
    expect(Math.abs(a.results.couplingLeak.value! / ((gridOhm * (150 - 1.4)) / 1.4) - 1)).toBeLessThan(0.02);
    expect(a.results.cathodeCurrent.value! * 1000).toBeCloseTo(52.8, 1);
    expect(a.findings[0]).toMatchObject({ id: "suspects-positive-grid", severity: "danger" });
    expect(a.headline).toMatch(/^Switch off now: .*driver end lifted/);
  });
  it("at zero once lifted it was the capacitor; still positive it was not", () => {
    expect(chance(ask({ ...read, tests: "grid-lifted,,0" }, audio), "coupling capacitor")).toBeGreaterThan(0.95);
    expect(chance(ask({ ...read, tests: "grid-lifted,,1.4" }, audio), "coupling capacitor")).toBeLessThan(0.02);
  });
});

describe("what must hold", () => {
  const stage = studiedStage;
  const evidence = (volts: object) => ({ volts, meterOf: () => 1e-7, meterShare: 0.01, meterFloorV: 0.02, tests: {} });
  const tolerances = { resistor: 0.07, tube: 0.1, supply: 0.04 };
  it("a healthy stage ranks no fault visible first, tied with what these readings can't show", () => {
    const r = rankCauses(stage, evidence(solveStage(stage)!), tolerances)!;
    expect(r.causes[0].fault.id).toBe("none-visible");
    expect(r.ties.map((c) => c.fault.id)).toEqual(expect.arrayContaining(["avc-bypass-leaky", "heater-cathode-leak"]));
  });
  it("chances are a distribution, whatever was read, and a heavier weight never makes a cause less likely", () => {
    for (const volts of [
      { plate: 200 },
      { screen: 30, cathode: 0.2 },
      { cathode: 11, plate: 250, screen: 250 },
      { grid: -5, cathode: 0.3 },
    ]) {
      const r = rankCauses(stage, evidence(volts), tolerances)!;
      expect(r.causes.reduce((s, c) => s + c.probability, 0)).toBeCloseTo(1, 9);
      const heavier = rankCauses(stage, evidence(volts), tolerances, { "weak-tube": 8 })!;
      const of = (x: typeof r) => x.causes.find((c) => c.fault.id === "weak-tube")!.probability;
      expect(of(heavier)).toBeGreaterThanOrEqual(of(r));
    }
  });
  it.each([
    ["cathode-open", { cathode: 11.4, plate: 250, screen: 249 }],
    ["screen-bypass-leaky", { screen: 0.03, plate: 250, cathode: 0 }],
    ["cathode-bypass-shorted", { screen: 90.2, plate: 222, cathode: 0.017 }],
    ["plate-open", { plate: 0.1, screen: 51.2, cathode: 0.41 }],
    ["dead-tube", { plate: 250, screen: 249.5, cathode: 0 }],
    ["weak-tube", { plate: 229.3, screen: 131.3, cathode: 0.884 }],
  ])("%s is first for its own readings", (id, volts) => {
    const r = rankCauses(stage, evidence({ supply: 250, grid: 0, ...volts }), tolerances)!;
    expect(r.causes[0].fault.id).toBe(id);
    expect(r.worstMiss).toBeLessThan(3);
  });
  it("says when no single fault explains the readings", () => {
    expect(ask({ readings: "plate,100;screen,200;cathode,0.2;grid,0" }).headline).toContain("No single fault explains");
  });
  it("ranks a stage in well under a fifth of a second's worth of solves: a triode has no screen to suspect", () => {
    const triode = ask({ tubeType: "6C4", readings: "plate,200;cathode,4" });
    expect(causes(triode).some((c) => c.startsWith("screen"))).toBe(false);
  });
});

it("is sure of nothing from one or two pins, and asks for the others first", () => {
  const one = ask({ readings: "plate,0 V" });
  expect(one.headline).toMatch(/^Only the plate was read: read supply, screen, cathode and grid as well/);
  expect(one.parts).toEqual([]);
  expect(one.findings.some((f) => f.id === "suspects-few-readings")).toBe(true);
});
it("a gassy output tube of 23 microampere ties with its coupling capacitor, and no AVC line is suspected there", () => {
  const a = ask(
    { readings: "plate,250;screen,250;cathode,24;grid,11", supply: "262 V", cathodeResistor: "250", screenFeed: "0" },
    benchOfSet(patterns[1], "stages.audio"),
  );
  expect(causes(a).slice(0, 2).sort()).toEqual(["coupling capacitor to the grid leaky", "tube gassy, or its grid emits"]);
  expect(chance(a, "tube gassy")).toBeGreaterThan(0.05);
});
it.each([
  ["plate,236;screen,400;cathode,1", "readings row 2", "contradiction"],
  ["screen,20;cathode,45", "readings row 2", "contradiction"],
])("%s: says which reading contradicts which", (readings, path, code) => {
  const r = answer(suspects, bench, { draws: 10, overrides: { readings } });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toContainEqual([path, code]);
});
it("asks for readings first, and works with typed figures where the tube is not in the table", () => {
  expect(orThrow(answer(suspects, bench, { draws: 5 })).headline).toContain("Not enough recorded");
  expect(orThrow(answer(suspects, emptyBench, { draws: 5, overrides: { tubeType: "other", readings: e4 } })).headline).toMatch(
    /^No answer yet: pointPlate/,
  );
  const typed = {
    tubeType: "other",
    pointPlate: "250 V",
    pointScreen: "100 V",
    pointGrid: "-1 V",
    pointPlateCurrent: "11 mA",
    pointScreenCurrent: "4.2 mA",
    transconductance: "4400 umho",
  };
  expect(
    orThrow(answer(suspects, emptyBench, { draws: 5, overrides: { ...typed, readings: e4, screenFeed: "33k" } })).results.tied.value,
  ).toBe(2);
});
it("recomputes the worked example of its page", () => {
  const rows = [
    ...theory.matchAll(/\| (sound|screen resistor of ([\d.]+) kohm|screen bypass of (\d+) kohm)\s+\| ([\d.]+) V\s+\| ([\d.]+) V/g),
  ];
  expect(rows).toHaveLength(3);
  const x = {
    pointPlate: 250,
    pointScreen: 100,
    pointGrid: -1.0336,
    pointPlateCurrent: 0.011,
    pointScreenCurrent: 0.0042,
    transconductance: 4.4e-3,
    supply: 250,
    plateFeed: 2200,
    decouplingFeed: 0,
    screenFeed: 33e3,
    cathodeResistor: 68,
    gridResistor: 1e6,
    returnVolts: 0,
    beforeVolts: 245,
    tubeCurrent: 1,
    tubeMu: 1,
    screenPart: 1,
  } as Asked;
  for (const [, , ohm, leak, screen, cathode] of rows) {
    const v = solveStage({
      ...stageOf(x),
      ...(ohm ? { screenOhm: Number(ohm) * 1e3 } : {}),
      ...(leak ? { screenLeak: 1 / (Number(leak) * 1e3) } : {}),
    })!;
    expect(Math.abs(v.screen - Number(screen)), screen).toBeLessThan(0.06);
    expect(Math.abs(v.cathode - Number(cathode))).toBeLessThan(0.003);
  }
});

it.each([e4, "plate,236;screen,66;cathode,0.6"])(
  "tells a chance alike in the sentence, in the table and as the number on top: %s",
  (readings) => {
    const a = ask({ readings });
    const [table] = a.tables;
    const onTop = aboutFigure(a.results.topChance);
    expect(onTop).toMatch(/^(?:\d+|over 99|under 1) %$/);
    expect(sayFigure(a.results.topChance)).toBe(onTop);
    expect(sayCell(table, table.rows[0][2], 2)).toBe(onTop);
    expect(a.headline).toContain(`(${onTop})`);
  },
);
