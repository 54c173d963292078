import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { benchOfSet } from "../../job/view";
import { emptyBench } from "../../set/bench";
import { patterns } from "../../set/patterns/kinds";
import { orThrow } from "../../units/issue";
import { sensitivity } from "./sheet";
import theory from "./theory.md";

const ask = (overrides: Record<string, string>) => orThrow(answer(sensitivity, emptyBench, { draws: 200, overrides }));
const whole = { statedRatio: "(S+N)/N", statedMode: "AM", levelIs: "p.d.", noiseBandwidth: "6 kHz", sourceResistance: "50 ohm" };

describe("a measured level", () => {
  it("is refused until its definition is whole, each missing piece by its field", () => {
    const r = answer(sensitivity, emptyBench, { draws: 5, overrides: { level: "3 uV" } });
    expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual(
      ["statedRatio", "statedMode", "levelIs", "noiseBandwidth", "sourceResistance"].map((p) => [p, "definition-incomplete"]),
    );
  });
  it("becomes a noise figure: 1.096 uV p.d. on AM is 10 dB, the same number as EMF 6.02 dB less", () => {
    const a = ask({ ...whole, level: "1.096 uV" });
    expect(a.results.receiverNoise.value).toBeCloseTo(10, 2);
    expect(ask({ ...whole, level: "1.096 uV", levelIs: "EMF" }).results.receiverNoise.value).toBeCloseTo(10 - 6.0206, 2);
    expect(a.results.levelAsked.value! * 1e6).toBeCloseTo(1.096, 9);
  });
  it("far short of its tubes is an act with the hazards of the inside", () => {
    const f = ask({ ...whole, level: "20 uV" }).findings.find((x) => x.id === "sensitivity-short-yes")!;
    expect(f).toMatchObject({ severity: "act", hazards: expect.arrayContaining(["b-plus", "stored-charge"]) });
    expect(ask({ ...whole, level: "20 uV" }).headline).toMatch(/Mend it first/);
  });
  it("below thermal noise is refused: no receiver does that", () => {
    const r = answer(sensitivity, emptyBench, { draws: 5, overrides: { ...whole, level: "0.01 uV" } });
    expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([["level", "below-thermal-noise"]]);
  });
});
describe("the limit", () => {
  it("is external noise at 3.5 MHz in a residential area, the receiver's at 28 MHz in a quiet one with a poor front end", () => {
    expect(ask({ listenAt: "3.5 MHz" }).headline).toMatch(/External noise is the limit/);
    expect(ask({ listenAt: "28 MHz", place: "quiet-rural", rfTube: "none", worldOff: "0 ± 1 dB" }).headline).toMatch(
      /The receiver's own noise is the limit/,
    );
  });
  it("says how much gain in front is needed, and how much is harm", () => {
    const a = ask({
      listenAt: "28 MHz",
      place: "quiet-rural",
      rfTube: "none",
      before: "a converter or preamplifier",
      aheadGain: "45 dB",
      aheadNoise: "5 ± 0.1 dB",
    });
    expect(a.results.gainForOneDb.value!).toBeLessThan(a.results.gainEnough.value!);
    expect(a.findings.map((f) => f.id)).toContain("sensitivity-gain-harm-yes");
    expect(ask({ listenAt: "28 MHz", place: "quiet-rural", aheadNoise: "20 dB" }).results.gainForOneDb.why).toContain("no gain helps");
  });
});
it("takes the tubes of the set, and says none where it has no RF stage", () => {
  const of = (i: number) => orThrow(answer(sensitivity, benchOfSet(patterns[i], ""), { draws: 10 })).choices;
  const tube = (i: number, path: string) => of(i).find((c) => c.path === path)!.value;
  expect([tube(1, "rfTube"), tube(1, "mixerTube")]).toEqual(["6BZ6", "6BE6"]);
  expect([tube(0, "rfTube"), tube(0, "mixerTube")]).toEqual(["none", "6BE6"]);
});
it("recomputes the worked example of its page", () => {
  const [, db] = /noise figure \| ([\d.]+) dB/.exec(theory)!;
  const a = ask({ rfTube: "6BA6", mixerTube: "6BE6", rfGain: "10", tankResistance: "10k", stageResistance: "20k", inputLoss: "0 dB" });
  expect(a.results.predictedNoise.value).toBeCloseTo(Number(db), 2);
});
