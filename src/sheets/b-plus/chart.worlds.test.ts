import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { resolveInputs } from "../../ask/resolve";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { standardUncertainty } from "../../units/quantity";
import { asCharted, chartDoubtV } from "../inputs/supply-learnt";
import type { Asked } from "./ask";
import { bPlus } from "./sheet";

/**
 * What the service chart's B+ tells of a supply: its limiting cases, and forty invented supplies that were integrated in time in another language
 * (samples/worlds/supplies.json), of which only what a line-up and a chart say is told: the currents, the winding's ohms and the rectifier's drop stand as usual.
 */
interface World {
  readonly id: string;
  readonly variant: string;
  readonly marked: { readonly lineHz: number; readonly halfV: number };
  readonly nominalLineV: number;
  readonly lineV: number;
  readonly silicon: boolean;
  readonly rectifier: string;
  readonly chart: { readonly firstV: number };
  readonly truth: { readonly firstV: number };
}
const { supplies } = JSON.parse(readFileSync(new URL("../../../samples/worlds/supplies.json", import.meta.url), "utf8")) as {
  readonly supplies: readonly World[];
};
const types: readonly (readonly [RegExp, string])[] = [
  [/about 20 V/, "5V4G"],
  [/about 50 V/, "5Y3GT or 80"],
  [/about 45 V/, "5U4G"],
];
const told = (w: World, charted: boolean, more: Record<string, string> = {}): Record<string, string> => ({
  lineVoltage: `${w.lineV} V`,
  ratedLine: `${w.nominalLineV} V`,
  chartLine: `${w.nominalLineV} V`,
  lineFrequency: `${w.marked.lineHz} Hz`,
  secondaryVoltage: `${w.marked.halfV} V ±${0.03 * w.marked.halfV} V`,
  secondaryResistance: "120 ohm ±60 ohm",
  plateCurrent: "50 mA ±25 mA",
  restCurrent: "35 mA ±20 mA",
  originalRectifier: types.find(([r]) => r.test(w.rectifier))![1],
  rectifierType: w.silicon ? "silicon" : types.find(([r]) => r.test(w.rectifier))![1],
  ...(/270/.test(w.variant) ? { addedResistance: "270 ohm" } : {}),
  ...(charted ? { chartFirst: `${w.chart.firstV} V` } : {}),
  ...more,
});
const first = (overrides: Record<string, string>) =>
  orThrow(answer(bPlus, emptyBench, { draws: 200, points: 11, overrides })).results.bPlusFirst;
const learnt = (overrides: Record<string, string>) => orThrow(resolveInputs(bPlus, emptyBench, overrides));
const sound = supplies.filter((w) => /designed|silicon|line/.test(w.variant));

describe("B+ of invented supplies that have nothing wrong, or silicon, told by winding, rectifier and chart", () => {
  const both = sound.map((w) => ({ w, without: first(told(w, false)), by: first(told(w, true)) }));
  const width = (f: { readonly low: number | null; readonly high: number | null }): number => f.high! - f.low!;
  const miss = (f: { readonly value: number | null }, w: World): number => Math.abs(f.value! - w.truth.firstV);
  const mean = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0) / x.length;
  it("is held by the interval at about the stated rate: 95 % of 25 is 24, fewer than 21 would come once in a thousand", () => {
    const out = both.filter(({ w, by }) => w.truth.firstV < by.low! || w.truth.firstV > by.high!);
    expect(sound.length).toBe(25);
    expect(out.length, out.map(({ w }) => w.id).join()).toBeLessThanOrEqual(4);
  });
  it("is known more closely, and met more closely, than without the chart", () => {
    const [widths, misses] = [both.map((b) => width(b.by) / width(b.without)), both.map((b) => miss(b.by, b.w) / miss(b.without, b.w))];
    expect(mean(widths), widths.map((v) => v.toFixed(2)).join()).toBeLessThan(0.8);
    expect(mean(both.map((b) => miss(b.by, b.w))) / mean(both.map((b) => miss(b.without, b.w))), misses.join()).toBeLessThan(0.8);
  });
});

describe("what is learnt from the chart", () => {
  const [w] = sound;
  const known = (more: Record<string, string>) => {
    const r = learnt({ ...told(w, true), ...more });
    return { r, x: r.plain as unknown as Asked };
  };
  it("is nothing without its B+, and nothing from one that this supply can't give: that is said", () => {
    expect(learnt(told(w, false)).learnt).toBeUndefined();
    expect(known({ chartFirst: "150 V" }).r.learnt).toBeUndefined();
    const a = orThrow(answer(bPlus, emptyBench, { draws: 50, points: 11, overrides: told(w, true, { chartFirst: "150 V" }) }));
    expect(a.findings.find((f) => f.id === "b-plus-chart-apart")?.says).toContain("150 V");
  });
  it("is all of the chart's volts where the chart is exact, and none of them where it may be anything", () => {
    const close = known({ chartTolerance: "0.001", chartMeter: "digital, 10 MΩ", chartFirst: "320 V" });
    expect(Math.abs(asCharted(close.x)!.volts - 320)).toBeLessThan(0.02 * 320);
    const before = asCharted(learnt(told(w, false)).plain as unknown as Asked)!.volts;
    const far = known({ chartTolerance: "1", chartFirst: "320 V" });
    expect(Math.abs(asCharted(far.x)!.volts - before)).toBeLessThan(0.1 * Math.abs(320 - before) + 1);
  });
  it("is the mean by precision where one value alone is in doubt; source: normal law, textbook", () => {
    const fixed = {
      secondaryResistance: "120 ohm",
      plateCurrent: "50 mA",
      restCurrent: "35 mA",
      rectifierDrop: "20 V",
      bleeder: "50k",
      loadExponent: "1",
      lossRatio: "1",
    };
    const still = {
      firstCapacitance: "20 uF",
      firstResistance: "250",
      secondResistance: "1500",
      secondCapacitance: "20 uF",
      thirdCapacitance: "10 uF",
    };
    const also = { firstChoke: "8 H", primaryResistance: "5", rectifierType: "other", rectifierCurrent: "125 mA" };
    const one = { ...fixed, ...still, ...also, secondaryVoltage: "280 V ±15 V", chartFirst: "330 V" };
    const { r, x } = known(one);
    expect(r.learnt?.names).toEqual(["secondaryVoltage"]);
    const at = (v: number): number => asCharted({ ...x, secondaryVoltage: v })!.volts;
    const slope = (at(285) - at(275)) / 10;
    const [prior, seen] = [(15 / Math.sqrt(3)) ** 2, (chartDoubtV(x, 330) / slope) ** 2];
    const by = 280 + (330 - at(280)) / slope;
    const mean = (280 / prior + by / seen) / (1 / prior + 1 / seen);
    expect(Math.abs(x.secondaryVoltage - mean)).toBeLessThan(0.5);
    const q = r.quantities.find((v) => v.path === "secondaryVoltage")!.quantity;
    expect(standardUncertainty(q.spread)).toBeCloseTo(Math.sqrt(1 / (1 / prior + 1 / seen)), 0);
    expect(q).toMatchObject({ origin: "fitted" });
    expect(q.source).toContain("the chart's B+, 330 V");
  });
});
