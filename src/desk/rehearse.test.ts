import { describe, expect, it } from "vitest";
import { answer } from "../ask/answer";
import { heardBandwidthHz, heardNoiseHz, whistleDownDb } from "../invented/rehearsal/measured";
import type { Scene } from "../invented/rehearsal/scene";
import { middleOf, strip } from "../invented/rehearsal/through";
import { benchOfSet } from "../job/view";
import { loudness } from "../readings/sound/loudness";
import { patterns } from "../set/patterns/kinds";
import { sheetById } from "../sheets/index";
import { orThrow } from "../units/issue";
import { besideOf, rehearse, rehearsedWav } from "./rehearse";
import { noiseUnder } from "./rehearse-noise";

const ask = (sheet: string, pattern: string, overrides: Readonly<Record<string, string>> = {}, at = "fittings.qm") => {
  const set = patterns.find((p) => p.pattern === pattern)!;
  const bench = benchOfSet({ ...set, chassis: { state: "isolated", isolation: "none", note: "" } }, at);
  return orThrow(answer(sheetById(sheet)!, bench, { draws: 400, overrides }));
};
type Answered = ReturnType<typeof ask>;
const drawn = (a: Answered, id: string) => ({ frequencyHz: Array.from(a.curves[id].x), levelDb: Array.from(a.curves[id].y) });
/** Whether a figure's interval holds what was measured, with so much allowed for the measuring itself. */
function holds(a: Answered, result: string, measured: number, allowed: number): void {
  const { low, high } = a.results[result];
  if (low === null || high === null) throw new Error(`${result} has no interval`);
  expect(measured, `${result}: ${low} to ${high}`).toBeGreaterThan(low - allowed);
  expect(measured, `${result}: ${low} to ${high}`).toBeLessThan(high + allowed);
}

describe("what is measured on what is heard lies within the answers' own intervals", () => {
  it.each([
    ["nine-tube-bandspread", "0.6"],
    ["nine-tube-bandspread", "0.9"],
    ["five-tube-live", "0.7"],
  ])("of a Q multiplier on %s at %s of its oscillation point", (pattern, regeneration) => {
    const a = ask("q-multiplier", pattern, { regeneration });
    const [before, after] = [drawn(a, "before"), drawn(a, "after")];
    const tuned = middleOf(before);
    const [p, q] = [strip(before, tuned), strip(after, tuned)];
    const audio = heardBandwidthHz(q)!;
    holds(a, "audioBandwidthAm", audio, 0.03 * audio);
    // two noises, each known to 2 %
    holds(a, "noiseImprovementAm", 10 * Math.log10(heardNoiseHz(p) / heardNoiseHz(q)), 0.2);
    holds(a, "rejection5kHz", Math.min(whistleDownDb(q, 5000), whistleDownDb(q, -5000)), 1);
    holds(a, "rejectionBefore", Math.min(whistleDownDb(p, 5000), whistleDownDb(p, -5000)), 1);
  });
  it("of the IF as it stands", () => {
    const a = ask("if-response", "nine-tube-bandspread", {}, "set");
    const r = drawn(a, "response");
    const p = strip(r, middleOf(r));
    const audio = heardBandwidthHz(p)!;
    holds(a, "audioBandwidthAm", audio, 0.03 * audio);
    holds(a, "noiseBandwidth", heardNoiseHz(p), 0.04 * heardNoiseHz(p));
  });
  it.each(["4 pF", "7 pF"])("of a crystal filter, its phasing at %s: width, notch, its place and its depth", (phasing) => {
    const a = ask("phasing", "nine-tube-bandspread", { phasing, crystalHolder: "5.5 pF u 0.1 pF" }, "set");
    const [now, even] = [drawn(a, "asItStands"), drawn(a, "balanced")];
    const q = strip(even, middleOf(even));
    const width = 2 * heardBandwidthHz(q)!;
    holds(a, "width", width, 0.03 * width);
    const peak = a.results.peakAt.value!;
    const p = strip(now, peak);
    // where a plain carrier is heard least, step by step as the transform has them
    const near = a.results.notchAt.value! - peak;
    const whistles = Array.from({ length: 81 }, (_, k) => near + (k - 40) * 5).map((hz) => ({ hz, db: whistleDownDb(p, hz) }));
    const deepest = whistles.reduce((x, y) => (y.db > x.db ? y : x));
    holds(a, "notchAt", deepest.hz + peak, 10);
    holds(a, "notchDepth", deepest.db, 1);
  });
});

const scene: Scene = {
  kind: "am",
  seconds: 3,
  neighbours: [{ offHz: 9000, levelDb: -10 }],
  carriers: [{ offHz: 3000, levelDb: -20 }],
  noiseDb: 30,
  crashes: { perSecond: 1, levelDb: 10 },
  fadingDb: 10,
  speed: 20,
};
describe("a rehearsal", () => {
  it("is equally loud on both sides, and says that it is a model", () => {
    const a = ask("q-multiplier", "nine-tube-bandspread", { regeneration: "0.9" });
    const d = { kind: "am", pitchHz: 700, avc: { attackS: 0.05, decayS: 0.5 }, audio: { lowHz: 100, highHz: 5000 } } as const;
    const still = { ...scene, crashes: { perSecond: 0, levelDb: 0 } };
    const r = rehearse({ answer: a, curve: "before" }, { answer: a, curve: "after" }, { scene: still, noiseSays: "" }, d).rendered();
    expect(loudness(r.asItIs, 24_000) - loudness(r.asItWouldBe, 24_000)).toBeCloseTo(0, 0);
    for (const x of [r.asItIs, r.asItWouldBe]) {
      const rms = Math.sqrt(x.reduce((s, v) => s + v * v, 0) / x.length);
      // a voice stands 12 to 20 dB over its own mean: no burst where the sound begins turns all of it down
      expect(x.reduce((m, v) => Math.max(m, Math.abs(v)), 0) / rms).toBeLessThan(15);
    }
    expect(r.card).toMatch(/^A model and an invented scene, no recording of this set/);
    expect(r.figures.map((f) => f.name)).toContain("whistle of 3000 Hz, under a fully modulated tone");
    const wav = rehearsedWav(r);
    expect(new TextDecoder("latin1").decode(wav.subarray(0, 200))).toContain("Left as it is, right as it would be.");
    expect(wav.length).toBeGreaterThan(4 * 3 * 24_000);
  });
  it("of a band that the person recorded plays that band, measures what needs no scene, and says what it is", () => {
    const a = ask("q-multiplier", "nine-tube-bandspread", { regeneration: "0.9" });
    const d = { kind: "am", pitchHz: 700, avc: undefined, audio: undefined } as const;
    // a plain carrier with 30 % of 400 Hz: through either strip it is that tone and no other
    const band = Float64Array.from({ length: 2 * 3 * 24_000 }, (_, i) =>
      i % 2 === 0 ? 1 + 0.3 * Math.cos((2 * Math.PI * 400 * (i / 2)) / 24_000) : 0,
    );
    const comes = { scene, own: { name: "evening.wav", band }, noiseSays: "" };
    const r = rehearse({ answer: a, curve: "before" }, { answer: a, curve: "after" }, comes, d).rendered();
    for (const x of [r.asItIs, r.asItWouldBe]) {
      const [from, to] = [12_000, 36_000];
      const mean = x.subarray(from, to).reduce((s, v) => s + v, 0) / (to - from);
      let [re, im, all] = [0, 0, 0];
      for (let i = from; i < to; i++) {
        re += (2 / (to - from)) * x[i] * Math.cos((2 * Math.PI * 400 * i) / 24_000);
        im += (2 / (to - from)) * x[i] * Math.sin((2 * Math.PI * 400 * i) / 24_000);
        all += (x[i] - mean) ** 2 / (to - from);
      }
      expect((re * re + im * im) / 2 / all).toBeGreaterThan(0.99);
    }
    expect(r.card).toContain("a recording through it that was not taken of this set's sound: evening.wav");
    expect(r.figures.map((f) => f.name)).toEqual(["AM audio, 3 dB down at", "noise that comes through, as a bandwidth"]);
  });
  it("has the noise of this set and of the band under its carrier, as powers add", () => {
    const a = ask("sensitivity", "nine-tube-bandspread", {}, "set");
    const { noiseDb, says } = noiseUnder(a, -73);
    const [own, world] = [a.results.receiverNoise.value!, a.results.worldNoise.value!];
    // k T0 is -174.0 dBm in 1 Hz, 6 kHz is 37.8 dB more
    const floor = -173.98 + 37.78 + 10 * Math.log10(10 ** (own / 10) + 10 ** (world / 10) - 1);
    expect(noiseDb).toBeCloseTo(-73 - floor, 1);
    expect(noiseUnder(a, -93).noiseDb).toBeCloseTo(noiseDb - 20, 6);
    expect(says).toContain("as the sheet on sensitivity has them");
  });
  it.each([
    ["9 kHz", "not-a-pair"],
    ["9 kHz, -10 dB, 3", "not-a-pair"],
    ["12 kHz, -10 dB", "out-of-range"],
  ])("refuses %s beside the station, by its option", (text, code) => {
    let issue: unknown;
    try {
      besideOf([text], "--neighbour");
    } catch (e) {
      issue = (e as { issues: readonly unknown[] }).issues[0];
    }
    expect(issue).toMatchObject({ path: "--neighbour", code });
  });
});
