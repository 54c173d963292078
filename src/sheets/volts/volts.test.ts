import { describe, expect, it } from "vitest";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { answer } from "../answer";
import { electrodeOf, electrodes } from "../chart-inputs";
import { volts } from "./sheet";
import { expectedReading, judgeChart, type VoltsInputs } from "./solve";
import theory from "./theory.md";

const base: VoltsInputs = {
  chart: [],
  resistances: [],
  chartMeter: "1 kΩ/V",
  meter: "digital, 10 MΩ",
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

describe("scenario E3 of the reference text: 107 V by 1 kohm/V on 250 V, 148 V by 10 Mohm", () => {
  it("is healthy behind 100 kohm, where the naive judgement says 38 % high", () => {
    const a = ask("V4,6,screen,107 V,100k,148 V");
    expect(a.headline).toContain("1 of 1 readings are as they should be");
    expect(expectedReading(base, 107, 100e3)).toBeCloseTo(148.3, 1);
    expect(expectedReading(base, 107, 33e3)).toBeCloseTo(120.7, 1);
  });
  it("cannot be judged while the node's resistance is not known, and says so", () => {
    const a = ask("V4,6,screen,107 V,,148 V");
    expect(a.results.unclear.value).toBe(1);
    expect(a.findings[0]).toMatchObject({ id: "volts-unclear-1", severity: "check" });
    expect(a.findings[0].says).toContain("cannot judge");
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
  expect(a.findings.find((f) => f.id === "volts-ohms-high-1")!.says).toContain("what reads high is high");
  expect(a.findings.find((f) => f.id === "volts-ohms-low-3")!.says).toContain("another path");
});
it("says which range is below which reading", () => {
  const r = answer(volts, emptyBench, { draws: 10, overrides: { chart: "V4,6,screen,107 V,100k,148 V,50" } });
  expect(r.ok ? "" : `${r.issues[0].path}: ${r.issues[0].code}, ${r.issues[0].expected}`).toBe(
    "chart row 1 range: range-below-reading, a range that holds the 148 V read",
  );
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
