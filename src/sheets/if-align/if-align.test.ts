import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet } from "../../job/view";
import { emptyBench } from "../../set/bench";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { ifAlign } from "./sheet";
import theory from "./theory.md";

const ask = (overrides: Record<string, string>) => orThrow(answer(ifAlign, emptyBench, { draws: 60, overrides }));
const finding = (a: ReturnType<typeof ask>, id: string) => a.findings.find((f) => f.id === `if-align-${id}`);
const humps = { humpSpacing: "7.2 kHz", humpValley: "1.6 dB", canCapacitance: "120 pF" };

it("recomputes the worked example of its page, and calls the humps no fault", () => {
  const [a, q, width, ohm] = [...theory.matchAll(/\|\s+([\d.]+)(?: kHz| kΩ)?\s+\|\n/g)].map((m) => Number(m[1]));
  const x = ask(humps);
  expect(x.results.pairA.value).toBeCloseTo(a, 2);
  expect(x.results.pairQ.value).toBeCloseTo(q, 1);
  expect(x.results.pairWidth.value! / 1e3).toBeCloseTo(width, 1);
  expect(x.results.loading.value! / 1e3).toBeCloseTo(ohm, 0);
  expect(finding(x, "humps")).toMatchObject({ severity: "check", hazards: expect.arrayContaining(["b-plus", "stored-charge"]) });
  expect(finding(x, "humps")!.do).toContain("Don't simply peak it");
});
describe("what the curve may not say", () => {
  it("a hump of the whole strip gives no k and no Q", () => {
    const x = ask({ ...humps, humpFrom: "the whole strip" });
    expect(x.results.pairQ.why).toContain("fit the sweep");
    expect(finding(x, "humps")).toBeUndefined();
  });
  it("unequal humps mean mistuning first", () =>
    expect(finding(ask({ ...humps, humpDifference: "3 dB" }), "unequal")!.severity).toBe("act"));
});
it("loads a strongly coupled can harder, so that it does come under critical", () => {
  const x = ask({ humpSpacing: "20 kHz", humpValley: "9 dB", canCapacitance: "120 pF" });
  const [a, q, ohm] = [x.results.pairA.value!, x.results.pairQ.value!, x.results.loading.value!];
  const own = q / (2 * Math.PI * 455e3 * 120e-12);
  const part = 1 / (1 + own / ohm);
  expect(a * Math.sqrt(part)).toBeLessThan(1);
  expect(x.headline).toContain("must not simply be peaked");
});
describe("a crystal filter that peaks at 456.3 kHz in a strip of 455 (an invented scenario)", () => {
  const x = ask({ filterCentre: "456.3 kHz", narrowest: "single crystal" });
  it("takes the cans there, with every mark 1.3 kHz low until the oscillator is raised", () => {
    expect(x.results.centreToUse.value).toBe(456300);
    expect(x.results.dialShift.value).toBe(-1300);
    expect(finding(x, "centre")!.says).toContain("1.30 kHz low");
    expect(finding(x, "centre")!.do).toMatch(/raise the oscillator by 1.30 kHz/);
  });
  it("turns round for an oscillator below the signal", () =>
    expect(finding(ask({ filterCentre: "456.3 kHz", oscillator: "below" }), "centre")!.says).toContain("high until"));
  it("forbids a sweep at line frequency", () => expect(finding(x, "sweep")!.says).toContain("too fast"));
});
it("peaks the sharp set's cans last first, and loads those of an overcoupled one", () => {
  const order = (overrides: Record<string, string>) =>
    ask(overrides).tables[0].rows.map((r) => [r[1], String(r[4]).includes("resistor across")]);
  const names = order({}).map((r) => r[0]);
  expect(names.filter((n) => String(n).startsWith("can")).at(0)).toBe("can 3");
  expect(order({ "strip.can2.coupling": "0.03" }).filter((r) => r[0] === "can 2" && r[1])).toHaveLength(2);
});
it("says what a slug's feel means on every pattern", () => {
  for (const p of patterns)
    for (const feel of ["tunes broadly", "no peak", "peak at the stop", "two peaks a turn or two apart"]) {
      const a = orThrow(answer(ifAlign, benchOfSet(p, ""), { draws: 5, overrides: { feel } }));
      expect(a.findings.some((f) => f.id.startsWith("if-align-feel") && f.do)).toBe(true);
    }
});
it.each([
  [{ filterCentre: "500 kHz" }, "filterCentre", "far-off"],
  [{ humpSpacing: "7 kHz" }, "humpValley", "half-a-hump"],
  [{ humpValley: "2 dB" }, "humpSpacing", "half-a-hump"],
] as [Record<string, string>, string, string][])("refuses %j", (overrides, path, code) => {
  const r = answer(ifAlign, emptyBench, { draws: 5, overrides });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
