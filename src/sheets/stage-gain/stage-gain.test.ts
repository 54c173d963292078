import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { stageGain } from "./sheet";
import theory from "./theory.md";

const ask = (injected: string, more: Record<string, string> = {}) =>
  orThrow(answer(stageGain, emptyBench, { draws: 300, overrides: { injected, avcState: "clamped", ...more } }));
it("recomputes the worked example of its page (levels of a maker's chart, source read: 360 mV, 850 uV, 25 uV for one detector current)", () => {
  const a = ask("last IF grid, , 360 mV; IF grid before that, , 850 uV; RF grid, , 25 uV");
  const gains = [...theory.matchAll(/\| ([\d.]+) dB \|/g)].map((m) => Number(m[1]));
  expect(a.tables[0].rows.slice(1).map((r) => Number(Number(r[3]).toFixed(1)))).toEqual(gains);
  expect(a.headline).toContain("no chart");
});
it("finds the first weak stage, whatever the generator is off by as a whole", () => {
  const injected = "last IF grid, 60 mV, 63 mV; IF grid before that, 850 uV, 900 uV; RF grid, 25 uV, 130 uV; antenna, 3 uV, 16 uV";
  for (const generatorUnknown of ["0 ± 2 dB", "0 ± 0.1 dB"]) {
    const a = ask(injected, { generatorUnknown });
    expect(a.results.badPoint.value).toBe(3);
    expect(a.headline).toMatch(/Look between RF grid and IF grid before that/);
    expect(a.findings.find((f) => f.id === "stage-gain-short")).toMatchObject({
      severity: "act",
      hazards: expect.arrayContaining(["b-plus", "stored-charge"]),
    });
  }
});
it("calls a stage that only may be short a check, and a whole set on its chart fine", () => {
  const edge = "last IF grid, 60 mV, 60 mV; IF grid before that, 850 uV, 1750 uV";
  expect(ask(edge).findings.find((f) => f.id === "stage-gain-short")!.severity).toBe("check");
  expect(ask("last IF grid, 60 mV, 66 mV; IF grid before that, 850 uV, 1 mV").headline).toMatch(/Every stage gives/);
});
it("blames nobody for what a point before it gained, and says the same in figure and sentence", () => {
  const a = ask("last IF grid, 60 mV, 60 mV; IF grid before that, 850 uV, 200 uV; mixer grid at the IF, 25 uV, 25 uV");
  expect(a.findings.map((f) => f.id)).toContain("stage-gain-too-much");
  expect(a.findings.map((f) => f.id)).not.toContain("stage-gain-short");
  const b = ask("last IF grid, 60 mV, 60 mV; RF grid, 25 uV, 110 uV", { generatorUnknown: "8 dB" });
  expect(b.results.badPoint.value).toBe(1);
  expect(b.headline).toMatch(/Look between last IF grid and the output/);
});
it("reads the oscillator on every band: dead at one end, uneven, fine", () => {
  const ids = (gridCurrents: string) => ask("last IF grid, , 60 mV; antenna, , 3 uV", { gridCurrents }).findings.map((f) => f.id);
  expect(ids("8, 9, 10; 0.1, 5, 8; 4, 8, 12")).toEqual(
    expect.arrayContaining(["stage-gain-oscillator-2-dead", "stage-gain-oscillator-3-uneven"]),
  );
  expect(ids("8, 9, 10").some((i) => i.includes("oscillator"))).toBe(false);
});
it("says so where the AVC was not clamped", () =>
  expect(ask("last IF grid, , 60 mV; antenna, , 3 uV", { avcState: "on" }).findings.map((f) => f.id)).toContain("stage-gain-avc"));
it.each([
  ["last IF grid, , 60 mV", "injected", "too-few"],
  ["antenna, , 3 uV; RF grid, , 30 uV", "injected row 2", "out-of-order"],
  ["last IF grid, , 0 V; antenna, , 3 uV", "injected row 1", "not-a-level"],
])("refuses %s", (injected, path, code) => {
  const r = answer(stageGain, emptyBench, { draws: 5, overrides: { injected } });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
