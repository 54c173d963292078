import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { electrodeOf, electrodes } from "../inputs/chart";
import type { Asked } from "./ask";
import { volts } from "./sheet";
import { expectedReading, judgeChart } from "./solve";
import theory from "./theory.md";

const unsaid = { part: Number.NaN, meter: Number.NaN, perVolt: Number.NaN, line: Number.NaN };
const base: Asked = {
  chart: [],
  resistances: [],
  chartMeter: "1 kΩ/V",
  meter: "digital, 10 MΩ",
  chartRange: undefined,
  chartLine: 117,
  lineVoltage: 117,
  supplyTolerance: 0.1,
  partTolerance: 0.2,
  tubeTolerance: 0.3,
};
const ask = (chart: string, more: Record<string, string> = {}) =>
  orThrow(answer(volts, emptyBench, { draws: 20, overrides: { chart, chartMeter: "1 kΩ/V", lineVoltage: "117 V", ...more } }));
const verdicts = (chart: string, more = {}) =>
  judgeChart({
    ...base,
    ...more,
    chart: [{ socket: 4, pin: 6, electrode: 2, chart: 107, source: Number.NaN, measured: 148, ...JSON.parse(chart) }],
  }).map((j) => j.verdict);

describe("an invented chart, worked out apart from this code: 107 V by 1 kohm/V on 250 V, 148 V by 10 Mohm", () => {
  it("is healthy behind 100 kohm, where the naive judgement says 38 % high", () => {
    const a = ask("V4,6,screen,107 V,100k,148 V");
    expect(a.headline).toContain("1 of 1 readings are as they should be");
    expect(expectedReading(base, 107, 100e3)).toBeCloseTo(148.3, 1);
    expect(expectedReading(base, 107, 33e3)).toBeCloseTo(120.7, 1);
  });
  it("cannot be judged while the node's resistance is not known, and says so", () => {
    const a = ask("V4,6,screen,107 V,,148 V");
    expect(a.results.unclear.value).toBe(1);
    const own = a.findings.filter((f) => f.id !== "chassis-may-be-live");
    expect(own[0]).toMatchObject({ id: "volts-unclear-1", severity: "check" });
    expect(own[0].says).toContain("cannot judge");
  });
  it("judges without it where every resistance says the same, and B+ and heaters always", () => {
    expect(verdicts('{"measured": 1300}')).toEqual(["high"]);
    expect(verdicts('{"electrode": 6, "chart": 250, "measured": 255}')).toEqual(["as it should be"]);
  });
});
it("moves the chart to today's line, and calls all heaters and B+ high together the line", () => {
  expect(verdicts('{"electrode": 6, "chart": 250, "measured": 280}')).toEqual(["high"]);
  expect(verdicts('{"electrode": 6, "chart": 250, "measured": 280}', { lineVoltage: 128 })).toEqual(["as it should be"]);
  const high = ask("V9,8,B+,250,,290; V4,4,heater,6.3,,7.2");
  expect(high.findings.map((f) => f.id)).toContain("volts-line");
});
it("a perfect meter on a chart by a perfect meter expects the chart itself: the limiting case", () => {
  const stiff = { ...base, chartMeter: "digital, 10 MΩ" };
  for (const ohm of [0, 1e3]) expect(expectedReading(stiff, 212, ohm)).toBeCloseTo(212, 6);
});
it("reads the electrode in old and British words", () => {
  const says = (t: string) => electrodes[electrodeOf(t)];
  expect(["anode", "P", "G2", "k", "G1", "HT", "B+", "AGC", "Heater", "shield"].map(says)).toEqual([
    "plate",
    "plate",
    "screen",
    "cathode",
    "grid",
    "B+",
    "B+",
    "AVC",
    "heater",
    "other",
  ]);
});
it("judges the resistance chart: high is high, low may be another path", () => {
  const a = ask("V4,6,screen,107 V,100k,148 V", { resistances: "V4,6,33k,79k; V4,7,68,70; V5,6,33k,9k" });
  expect(a.tables.find((t) => t.id === "ohms")!.rows.map((r) => r[3])).toEqual(["high", "as it should be", "low"]);
  expect(a.findings.find((f) => f.id === "volts-ohms-high-1")!.says).toContain("a part that reads high is high");
  expect(a.findings.find((f) => f.id === "volts-ohms-low-3")!.says).toContain("another path");
});
it("leaves a range out that does not hold what was read on it, and says so", () => {
  const a = ask("V4,6,screen,107 V,100k,148 V,50");
  expect(a.findings.find((f) => f.id === "volts-range-1")!.says).toContain("50 V does not hold the 148");
  expect(a.headline).toContain("1 of 1 readings are as they should be");
});
describe("a node is bounded by what it is", () => {
  const stiff = { chartMeter: "20 kΩ/V" };
  it("a cathode at four times its chart is high, whatever its resistor", () => {
    expect(verdicts('{"electrode": 3, "chart": 0.84, "measured": 3.82}', stiff)).toEqual(["high"]);
    expect(verdicts('{"electrode": 3, "chart": 0.84, "measured": 0.9}', stiff)).toEqual(["as it should be"]);
  });
  it("most nodes of a chart by 20 kohm/V are judged without a resistance, by a meter of 10 megohm", () => {
    const chart =
      "V4,5,plate,225,,221; V4,6,screen,87,,91.6; V4,7,cathode,0.84,,0.9; V8,5,plate,230,,236; V8,6,screen,239,,241; V8,2,cathode,12,,12.4; V6,7,plate,92,,118";
    const a = ask(chart, stiff);
    expect(a.results.unclear.value).toBe(0);
    expect(a.results.judged.value).toBe(7);
  });
  it("a plate that drives a loudspeaker has a winding, not a plate load", () => {
    expect(verdicts('{"electrode": 1, "chart": 230, "measured": 300, "duty": 4}')).toEqual(["high"]);
    expect(verdicts('{"electrode": 1, "chart": 100, "measured": 150}')).toEqual(["cannot judge"]);
  });
  it("never expects of a node more than the set has, however much the chart's meter loads it", () => {
    const a = ask("V3,1,grid,-3,,-4; V3,9,plate,80,470k,150");
    const due = judgeChart({
      ...base,
      chart: [
        { socket: 3, pin: 1, electrode: 4, chart: -3, source: Number.NaN, measured: -12, range: Number.NaN, duty: 0, ...unsaid },
        { socket: 3, pin: 2, electrode: 1, chart: 200, source: 2.2e6, measured: 150, range: Number.NaN, duty: 0, ...unsaid },
      ],
    });
    expect(Math.abs(due[0].due!.low)).toBeLessThan(101);
    expect(due[1]).toMatchObject({ due: undefined, verdict: "cannot judge" });
    expect(a.findings.map((f) => f.says).join()).not.toMatch(/-\d{3} V/);
  });
});
describe("what a reading is, in words", () => {
  const stiff = { chartMeter: "20 kΩ/V" };
  it("a cathode at -5 V where 2 V is due is of the wrong sign, a grid at 5 V where nothing is due is positive", () => {
    expect(verdicts('{"electrode": 3, "chart": 2, "measured": -5}', stiff)).toEqual(["of the wrong sign"]);
    expect(verdicts('{"electrode": 4, "chart": 0, "measured": 5}', stiff)).toEqual(["positive"]);
    expect(verdicts('{"electrode": 3, "chart": 0, "measured": -5}', stiff)).toEqual(["negative"]);
    expect(ask("V4,7,cathode,2,,-5", stiff).headline).toContain("is of the wrong sign");
  });
  it("a measured zero is judged, nothing written is not", () => {
    expect(verdicts('{"electrode": 1, "chart": 225, "measured": 0}', stiff)).toEqual(["low"]);
    expect(ask("V4,5,plate,225,,0", stiff).results).toMatchObject({ judged: { value: 1 }, wrong: { value: 1 } });
    expect(ask("V4,5,plate,225,,", stiff).results.judged.value).toBe(0);
  });
  it("a positive grid is a danger, though the chart has nothing of it", () => {
    const a = ask("V8,1,grid,0,,1.4", stiff);
    expect(a.findings[1]).toMatchObject({ id: "volts-positive-grid-1", severity: "danger" });
  });
});
describe("all up or down together", () => {
  const stiff = { chartMeter: "20 kΩ/V", lineVoltage: "117 V" };
  const up = (heater: string): string =>
    `V9,8,B+,250,,296; V4,5,plate,225,,264; V4,6,screen,100,2k,118; V8,5,plate,239,400,281; V5,5,plate,224,,262${heater}`;
  it("says so once, with how much, and points to B+ where the heaters are right", () => {
    const a = ask(up("; V4,4,heater,6.3,,6.3"), stiff);
    expect(a.results.together.value).toBeCloseTo(1.175, 2);
    expect(a.headline).toMatch(/5 plates, screens and B\+ are up together by 1[78] %.*so it is B\+/);
    expect(a.findings.filter((f) => f.id.startsWith("volts-high")).map((f) => f.says)).toHaveLength(1);
  });
  it("points to the line where the heaters are up as well, and asks for them where they were not read", () => {
    expect(ask(up("; V4,4,heater,6.3,,7.3"), stiff).headline).toContain("so it is the line");
    expect(ask(up(""), stiff).headline).toContain("The heaters were not read");
  });
  it("does not hide one that is wrong by itself, nor find company where there is none", () => {
    const one = ask(`${up("; V4,4,heater,6.3,,6.3")}; V6,6,screen,95,2k,12`, stiff);
    expect(one.headline).toContain("V6 pin 6, screen is low");
    expect(
      ask("V4,5,plate,225,,150; V5,5,plate,225,,226; V6,5,plate,225,,224; V7,5,plate,225,,260", stiff).results.together.value,
    ).toBeNull();
  });
});
it("takes the halves of a double tube as two", () => {
  const a = ask("V5a,1,plate,92,220k,95; V5b,6,plate,120,100k,60", { chartMeter: "20 kΩ/V" });
  expect(a.tables[0].rows.map((r) => r[0])).toEqual(["V5a pin 1, plate", "V5b pin 6, plate"]);
  expect(a.headline).toContain("V5b pin 6, plate is low");
});
it("refuses what is no figure at its cell", () => {
  const r = answer(volts, emptyBench, { draws: 10, overrides: { chart: "V4,6,screen,abc,100k,148" } });
  expect(r.ok ? "" : r.issues[0].path).toBe("chart row 1 chart");
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| (\d+) kohm\s+\| ([\d.]+) V/g)];
  expect(rows).toHaveLength(2);
  for (const [, ohm, v] of rows) expect(expectedReading(base, 107, Number(ohm) * 1e3)).toBeCloseTo(Number(v), 1);
});
