import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet } from "../../job/view";
import { feedbackConductanceS } from "../../physics/q-multiplier";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { sheetById } from "../index";
import theory from "./theory.md";

const sheet = sheetById("q-multiplier")!;
const on = (pattern: string, overrides = {}) => {
  const set = patterns.find((p) => p.pattern === pattern)!;
  return orThrow(
    answer(sheet, benchOfSet({ ...set, chassis: { state: "isolated", isolation: "none", note: "" } }, "fittings.qm"), {
      draws: 200,
      points: 21,
      overrides,
    }),
  );
};
const value = (a: ReturnType<typeof on>, n: string) => a.results[n].value as number;

describe("common practice, no source: what a Q multiplier is good for", () => {
  const wide = on("five-tube-live");
  const narrow = on("nine-tube-ceramic");
  it("a wide set gains on AM, with the audio kept; a narrow one hardly, but still on CW", () => {
    expect(wide.headline).toMatch(/^Worth fitting to this set for AM/);
    expect(value(wide, "amNoiseGainUsable")).toBeGreaterThan(3);
    expect(wide.findings.some((f) => f.id === "multiplier-am-yes")).toBe(true);
    expect(narrow.findings.some((f) => f.id === "multiplier-am-no")).toBe(true);
    expect(narrow.findings.some((f) => f.id === "multiplier-cw-yes")).toBe(true);
  });
  it("after the audio filter SSB can never gain more than the other side's noise", () => {
    for (const p of patterns) expect(value(on(p.pattern), "noiseImprovementSsb")).toBeLessThan(10 * Math.log10(2) + 1e-9);
  });
});
describe("regeneration", () => {
  it("multiplies Q without end as it nears oscillation, and says when it oscillates", () => {
    const q = [0.5, 0.9, 0.99].map((r) => value(on("nine-tube-bandspread", { regeneration: String(r) }), "multipliedQ"));
    expect(q[1] / q[0]).toBeCloseTo(5, 1);
    expect(q[2] / q[1]).toBeCloseTo(10, 1);
    const over = on("nine-tube-bandspread", { regeneration: "1.05" });
    expect(over.results.multipliedQ.why).toBe("it oscillates");
    expect(over.results.width6dB.value).toBeNull();
  });
  it("set high at the IF it oscillates at an end of a wide tuning range, and the sheet says what survives", () => {
    const a = on("five-tube-live", { regeneration: "0.97", tuningRange: "6 kHz" });
    expect(a.findings.some((f) => f.id === "multiplier-across-no")).toBe(true);
    expect(value(a, "survivingRegeneration")).toBeLessThan(0.97);
  });
  it("with a line that never rises, what survives is the tuning's own limit: regeneration times one plus the margin across it", () => {
    for (const tuningRange of ["500 Hz", "3 kHz", "6 kHz"]) {
      const a = on("five-tube-live", { regeneration: "0.9", tuningRange, lineChange: "0" });
      expect(Math.abs(value(a, "survivingRegeneration") - 0.9 * (1 + value(a, "oscillationAcrossTuning")))).toBeLessThan(1e-9);
    }
    const steady = on("five-tube-live", { regeneration: "0.9", lineChange: "0" });
    const risen = on("five-tube-live", { regeneration: "0.9", lineChange: "0.085" });
    expect(value(risen, "survivingRegeneration")).toBeLessThan(value(steady, "survivingRegeneration"));
  });
  it("the skirts stay: -60 dB narrows far less than -6 dB", () => {
    const [off, at] = [on("five-tube-live", { regeneration: "0.001" }), on("five-tube-live", { regeneration: "0.9" })];
    expect(value(off, "width6dB") / value(at, "width6dB")).toBeGreaterThan(4);
    expect(value(off, "width60dB") / value(at, "width60dB")).toBeLessThan(2.5);
  });
});
it("as a null: depth by inverse feedback is 1 + D where the plate is a resistance", () => {
  const a = on("nine-tube-bandspread", { function: "reject", nullLoopGain: "31.6", regeneration: "0.9" });
  expect(Math.abs(value(a, "nullDepth") - 20 * Math.log10(32.6))).toBeLessThan(0.5);
  expect(a.results.noiseImprovementCw.why).toBe("reject function");
});
it("recomputes the worked example of its page", () => {
  const f = { dividerRatio: 0.5, transconductanceS: 1.6e-3, amplificationRatio: 100 };
  const rows = [...theory.matchAll(/\| ([\d.]+) (k?)ohm *\| ([\d.]+) uS *\|/g)];
  expect(rows).toHaveLength(3);
  for (const [, r, k, us] of rows)
    expect(Math.abs(feedbackConductanceS(f, Number(r) * (k ? 1000 : 1)) * 1e6 - Number(us))).toBeLessThan(0.05);
});
it("answers with regeneration off: the bare tank, nothing that could oscillate", () => {
  const a = on("five-tube-live", { regeneration: "0" });
  expect(a.results.multipliedQ.value!).toBeGreaterThan(20);
  expect(a.results.regenerationMargin.why).toBe("regeneration is off");
  expect(a.findings.filter((f) => f.id.startsWith("multiplier-across"))).toEqual([]);
});
