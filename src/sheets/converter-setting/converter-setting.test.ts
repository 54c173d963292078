import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { dbOf, lossAgainstWorldDb, ratioOf } from "../../physics/noise";
import { emptyBench } from "../../set/bench";
import { externalNoiseDb } from "../../standards/external-noise";
import { orThrow } from "../../units/issue";
import { converterSetting } from "./sheet";
import { type Settled, solve } from "./solve";
import theory from "./theory.md";

const base: Settled = {
  crystal: 24.5e6,
  crystalCounted: undefined,
  heard: [],
  readsLow: 0,
  heardDoubt: 0,
  crystalWanted: 200,
  crystalCut: "fundamental",
  pullMotional: 15e-15,
  pullHolder: 5e-12,
  pullLoad: 30e-12,
  pullTravel: 10e-12,
  wantedLow: 28e6,
  wantedHigh: 28.5e6,
  inputCircuits: 2,
  inputQ: 60,
  levelAtLow: undefined,
  levelAtMiddle: undefined,
  levelAtHigh: undefined,
  levelWithout: undefined,
  levelWith: undefined,
  levelDoubt: 0,
  ownNoise: 6,
  behindNoise: 15,
  airNoise: "residential",
  padResistance: 50,
};
const on = (overrides: Record<string, string> = {}) =>
  orThrow(answer(converterSetting, emptyBench, { draws: 400, points: 11, overrides: { chassis: "isolated", ...overrides } }));
const ids = (a: ReturnType<typeof on>): string[] => a.findings.map((f) => f.id);

it("recomputes its worked example (identities of mixing; the resonance curve)", () => {
  const said = (text: string): number => Number(new RegExp(`\\| ${text} *\\| ([\\d.]+)`).exec(theory)![1]);
  const y = solve({ ...base, heard: [{ signal: 28.2e6, dial: 3.6985e6 }], readsLow: -500 });
  expect(y.crystalOff).toBeCloseTo(1e3 * said("crystal off"), 6);
  expect(y.endsLoss).toBeCloseTo(said("ends lose"), 2);
});
describe("the crystal", () => {
  it("below the band and above it: a signal heard where it should be leaves no error, and one that is 1 kHz off leaves 1 kHz", () => {
    for (const [crystal, dialOf] of [
      [24.5e6, (f: number) => f - 24.5e6],
      [32e6, (f: number) => 32e6 - f],
    ] as const)
      for (const off of [0, 1000, -1000]) {
        const heard = [28.1e6, 28.4e6].map((signal) => ({ signal, dial: Math.abs(dialOf(signal) + (crystal > 28e6 ? off : -off)) }));
        expect(solve({ ...base, crystal, heard }).crystalOff).toBeCloseTo(off, 6);
      }
  });
  it("by a counter stands before what was heard", () => {
    const heard = [{ signal: 28.2e6, dial: 3.69e6 }];
    expect(solve({ ...base, heard, crystalCounted: 24.5003e6 }).crystalOff).toBeCloseTo(300, 6);
  });
  it("is undone by the trimmer's change, and on the third overtone is pulled a ninth as far, near nothing", () => {
    const y = solve({ ...base, crystalCounted: 24.5003e6 });
    const f = (c1: number, load: number): number => Math.sqrt(1 + c1 / (base.pullHolder + load));
    const change = y.trimmerChange as number;
    expect(change).toBeGreaterThan(0);
    expect((f(15e-15, 30e-12 + change) / f(15e-15, 30e-12)) * 24.5003e6).toBeCloseTo(24.5e6, 3);
    const third = solve({ ...base, crystalCut: "third overtone" });
    expect(third.pullPerPicofarad / y.pullPerPicofarad).toBeCloseTo(1 / 9, 3);
    expect(solve({ ...base, crystalCounted: 24.6e6 }).trimmerChange).toEqual({ none: expect.stringContaining("no capacitance") });
  });
  it("is told good, to be turned and which way, or beyond its trimmer", () => {
    const exactly = { pullMotional: "15 fF", pullHolder: "5 pF", pullLoad: "30 pF", pullTravel: "10 pF", crystal: "24.5 MHz" };
    expect(ids(on({ ...exactly, crystalCounted: "24.50005 MHz" }))).toContain("converter-crystal-yes");
    const high = on({ ...exactly, crystalCounted: "24.5005 MHz" }).findings.find((f) => f.id === "converter-crystal-no");
    expect(high?.do).toContain("toward more capacitance");
    expect(on({ ...exactly, crystalCounted: "24.4995 MHz" }).findings.find((f) => f.id === "converter-crystal-no")?.do).toContain(
      "toward less",
    );
    const far = on({ ...exactly, crystalCounted: "24.51 MHz" }).findings.find((f) => f.id === "converter-crystal-beyond");
    expect(far).toMatchObject({ severity: "act", state: "open-dead" });
    expect(on(exactly).headline).toMatch(/^Nobody has heard a known signal/);
  });
});
describe("the input", () => {
  it("loses alike at both ends, nothing in the middle, and more with more circuits", () => {
    const a = on();
    const ends = a.curves.ends.y;
    expect(ends[0]).toBeCloseTo(ends[ends.length - 1], 9);
    expect(ends[5]).toBeLessThan(0.01);
    expect(solve({ ...base, inputCircuits: 4 }).endsLoss).toBeCloseTo(2 * solve(base).endsLoss, 9);
    expect(solve({ ...base, inputCircuits: 0 }).endsLoss).toBe(0);
  });
  it("is off its peak where one end was read to lose much more than its circuits take off", () => {
    const level = { levelAtMiddle: "2 uV", levelAtLow: "4 uV", levelAtHigh: "4.2 uV", inputQ: "60", inputCircuits: "2" };
    expect(ids(on(level))).toEqual(expect.arrayContaining(["converter-lower-yes", "converter-upper-yes"]));
    expect(ids(on({ ...level, levelAtHigh: "12 uV" }))).toContain("converter-upper-no");
    expect(ids(on({ ...level, levelAtLow: "1.2 uV" }))).toContain("converter-lower-no");
  });
});
describe("the gain", () => {
  it("from which on all costs no more than 1 dB is that at which it costs 1 dB (ITU-R P.372 and Friis, put together again)", () => {
    for (const airNoise of ["city", "residential", "rural", "quiet-rural"] as const) {
      const least = solve({ ...base, airNoise, behindNoise: 30 }).leastGain as number;
      const world = ratioOf(externalNoiseDb(Math.sqrt(28e6 * 28.5e6), airNoise));
      const both = ratioOf(6) + (ratioOf(30) - 1) / ratioOf(least);
      expect(lossAgainstWorldDb(world, both), airNoise).toBeCloseTo(1, 6);
    }
    expect(solve({ ...base, ownNoise: 35 }).leastGain).toEqual({ none: expect.stringContaining("its own noise") });
  });
  it("is the ratio of the levels; what is over 20 dB is taken off by a pad that gives it back", () => {
    const y = solve({ ...base, levelWithout: 20e-6, levelWith: 1e-6 });
    expect(y.gain).toBeCloseTo(dbOf(400), 9);
    expect(y.toTakeOff).toBeCloseTo(dbOf(400) - 20, 9);
    // published: 6 dB in 50 ohm is 150.5 and 37.35 ohm (from memory); 6.02 dB here
    expect(y.padAcross).toBeCloseTo(150, 0);
    expect(y.padInSeries).toBeCloseTo(37.5, 0);
    expect(solve({ ...base, levelWithout: 5e-6, levelWith: 1e-6 }).toTakeOff).toEqual({ none: expect.stringContaining("nothing") });
  });
  it("is told right, too much with its pad, or too little", () => {
    const quiet = { levelDoubt: "0.5 dB", levelWith: "1 uV", levelWithout: "6 uV" };
    expect(ids(on(quiet))).toContain("converter-gain-right");
    expect(on({ ...quiet, levelWithout: "30 uV" }).findings.find((f) => f.id === "converter-gain-high-no")?.do).toMatch(/^A pad of/);
    expect(ids(on({ ...quiet, levelWithout: "0.2 uV", behindNoise: "45 dB" }))).toContain("converter-gain-low-no");
  });
});
it("tells its steps in order, each with what to hear or read, before anything was read", () => {
  const steps = on().findings.filter((f) => /^converter-\d/.test(f.id));
  expect(steps.map((f) => f.id.slice(0, 11))).toEqual([
    "converter-1",
    "converter-2",
    "converter-3",
    "converter-4",
    "converter-5",
    "converter-6",
    "converter-7",
  ]);
  expect(steps.filter((f) => /Ear:|Meter:/.test(f.do ?? "")).length).toBe(6);
  expect(steps.at(-1)?.do).toContain("Both states");
});
it("refuses a crystal that nobody marked, one inside the band, and a band the wrong way round", () => {
  for (const [overrides, path] of [
    [{ crystal: "0 Hz" }, "crystal"],
    [{ crystal: "28.2 MHz" }, "crystal"],
    [{ wantedLow: "29 MHz" }, "wantedHigh"],
  ] as const) {
    const r = answer(converterSetting, emptyBench, { overrides });
    expect(r.ok ? [] : r.issues.map((i) => i.path)).toEqual([path]);
  }
});
