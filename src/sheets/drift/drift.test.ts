import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { drift } from "./sheet";
import theory from "./theory.md";

const rows = (minutes: number, hz: (t: number) => number, line?: (t: number) => number): string =>
  Array.from({ length: minutes / 2 + 1 }, (_, i) => 2 * i)
    .map((t) => `${t} min, ${hz(t).toFixed(1)} Hz, ${line ? `, ${line(t).toFixed(1)} V` : ""}`)
    .join("; ");
const proved = { ...emptyBench, choice: (path: string) => (path === "chassis" ? "isolated" : undefined) };
const ask = (overrides: Record<string, string>) => orThrow(answer(drift, proved, { draws: 100, overrides }));
const warm = (t: number): number => 7.2e6 + 2100 * Math.exp(-t / 15) + 2 * Math.sin(t * 5);

it("recomputes the worked example of its page from a log that falls by 2.1 kHz", () => {
  const a = ask({
    driftLog: rows(120, warm),
    oscillatorFrequency: "7.655 MHz",
    temperatureRise: "18 K",
    gangNow: "100 pF",
    fixedCapacitance: "80 pF",
    replacedCoefficient: "0 ppm",
  });
  const [kelvin, c] = [...theory.matchAll(/\|\s+(-?[\d.]+) (?:ppm|pF)/g)].map((m) => Number(m[1]));
  expect(a.results.perKelvin.value! * 1e6).toBeCloseTo(kelvin, 0);
  expect(a.results.needed.value! * 1e12).toBeCloseTo(c, 0);
  expect(a.headline).toMatch(/^The set is ready to use after/);
  expect(a.findings.find((f) => f.id === "drift-compensate")!.hazards).toEqual(["b-plus", "stored-charge"]);
});
it("takes the thermometer's own column where it was read", () => {
  const log = Array.from({ length: 61 }, (_, i) => 2 * i)
    .map((t) => `${t} min, ${warm(t).toFixed(1)} Hz, ${(20 + 18 * (1 - Math.exp(-t / 15))).toFixed(2)} °C`)
    .join("; ");
  expect(ask({ driftLog: log, oscillatorFrequency: "7.655 MHz", temperatureRise: "40 K" }).results.perKelvin.value! * 1e6).toBeCloseTo(
    -15.2,
    0,
  );
});
describe("a log that does not tell its end", () => {
  const short = rows(30, (t) => 7.2e6 + 3000 * Math.exp(-t / 45) + 2 * Math.sin(t * 5));
  it("gives none, says what the log itself shows, and asks for one twice as long", () => {
    const a = ask({ driftLog: short, minuteLimit: "60 Hz" });
    expect(a.headline).toMatch(/Where it will settle can't be told/);
    expect(a.results.whole.low).toBeNull();
    expect(a.results.needed.low).toBeNull();
    // 3000/45 exp(-t/45) is 60 Hz a minute at 4.7 min, and 34.2 Hz a minute at the end
    expect(Math.abs(a.results.fitAfter.value! / 60 - 4.7)).toBeLessThan(1.5);
    expect(Math.abs(a.results.atEnd.value! + 34.2)).toBeLessThan(3);
    expect(a.findings.find((f) => f.id === "drift-end-open")!.do).toContain("for 90 minutes");
  });
  it("says not within this log where it moves faster to the end", () => {
    const a = ask({ driftLog: short, minuteLimit: "5 Hz" });
    expect(a.results.fitAfter.why).toContain("not within this log");
    expect(a.headline).toMatch(/^It is not ready to use within this log/);
  });
  it("gives none where something else moved the set, and says so", () => {
    const a = ask({ driftLog: rows(120, (t) => warm(t) + (t > 60 ? 300 : 0)) });
    expect(a.results.whole.low).toBeNull();
    expect(a.findings.map((f) => f.id)).toContain("drift-no-law");
  });
});
it("takes per kelvin out of a log without an end where the thermometer was read", () => {
  const log = Array.from({ length: 16 }, (_, i) => 2 * i)
    .map(
      (t) =>
        `${t} min, ${(7.2e6 + 3000 * Math.exp(-t / 45) + 2 * Math.sin(t * 5)).toFixed(1)} Hz, ${(20 + 30 * (1 - Math.exp(-t / 45))).toFixed(2)} °C`,
    )
    .join("; ");
  // 3000 Hz in 30 K of 7.2 MHz
  expect(Math.abs(ask({ driftLog: log, oscillatorFrequency: "7.2 MHz" }).results.perKelvin.value! * 1e6 + 13.9)).toBeLessThan(0.3);
});
it("tells heat from line where the line was logged and moved, and says so where not", () => {
  const line = (t: number): number => (t % 16 < 8 ? 235 : 225);
  const a = ask({ driftLog: rows(120, (t) => warm(t) + 10 * (line(t) - 230), line) });
  // 2.3 V are 1 % of 230 V
  expect(a.results.byLine.value).toBeCloseTo(23, 0);
  expect(ask({ driftLog: rows(120, warm) }).findings.map((f) => f.id)).toContain("drift-line-unknown");
});
it("does not offer a negative coefficient to a set that rises", () => {
  const a = ask({ driftLog: rows(120, (t) => 7.2e6 - 900 * Math.exp(-t / 15)) });
  expect(a.results.needed.why).toContain("make it worse");
  expect(a.findings.map((f) => f.id)).toContain("drift-rises");
});
it("calls a set steady that does not drift, and survives a replaced capacitor as negative as the new one", () => {
  const flat = ask({ driftLog: rows(120, (t) => 7.2e6 + Math.sin(t * 1.7)) });
  expect(flat.headline).toMatch(/^It is steady/);
  const even = ask({ driftLog: rows(120, warm), replacedCoefficient: "-750 ppm" });
  expect(even.results.needed.why).toContain("nothing is gained");
});
it("counts only the drift of the log's own time where the thermometer was read", () => {
  const log = Array.from({ length: 61 }, (_, i) => 1.5 * i)
    .map((t) => `${t} min, ${(7.2e6 + 2000 * Math.exp(-t / 30)).toFixed(1)} Hz, ${(20 + 20 * (1 - Math.exp(-t / 30))).toFixed(3)} °C`)
    .join("; ");
  // 2000 Hz in 20 K of 7.2 MHz
  expect(ask({ driftLog: log, oscillatorFrequency: "7.2 MHz" }).results.perKelvin.value! * 1e6).toBeCloseTo(-2000 / 7.2 / 20, 2);
});
it.each([
  ["0 min, 7 MHz; 2 min, 7 MHz", "driftLog", "too-few"],
  [rows(20, warm).replace("10 min", "1 min"), "driftLog row 6", "time-runs-back"],
  [rows(20, warm).replace("4 min, 720", "4 min, 7200"), "driftLog row 3", "far-off"],
  [rows(20, warm).replace("4 min, 72", "4 min, -72"), "driftLog row 3", "not-a-frequency"],
])("refuses %s", (log, path, code) => {
  const r = answer(drift, emptyBench, { draws: 5, overrides: { driftLog: log } });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
