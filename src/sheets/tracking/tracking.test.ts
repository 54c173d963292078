import { describe, expect, it } from "vitest";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { answer } from "../answer";
import { tracking } from "./sheet";
import { blame, changedHz, type TrackingInputs, tracked } from "./solve";
import theory from "./theory.md";

const base: TrackingInputs = {
  readings: [],
  oscillator: "above",
  points: "least worst error",
  low: 1.6e6,
  high: 4.8e6,
  intermediate: 455e3,
  gangLow: 10e-12,
  gangHigh: 365e-12,
  signalQ: 60,
  readingNoise: 500,
  coilDoubt: 0.1,
  trimmerDoubt: 0.3,
  padderDoubt: 0.05,
};
const t = tracked(base)!;
const read = (coil: number, trimmer: number, padder: number, at: readonly number[]) =>
  at.map((dial) => ({ dial, received: changedHz(t, t.parts!, dial, coil, trimmer, padder) - 455e3 }));
const ask = (overrides: Record<string, string>) => orThrow(answer(tracking, emptyBench, { draws: 40, overrides }));
const text = (rows: { dial: number; received: number }[]): string => rows.map((r) => `${r.dial} Hz, ${r.received} Hz`).join("; ");

describe("which part is off", () => {
  it.each([
    [0.03, 0, 0],
    [-0.02, 0.1, 0],
    [0, -0.2, 0],
  ])("coil %f and trimmer %f, padder %f, from two marks", (coil, trimmer, padder) => {
    const b = blame({ ...base, readings: read(coil, trimmer, padder, [1.7e6, 4.6e6]) }, t)!;
    expect(Math.abs(b.coil[0] - coil)).toBeLessThan(2.5 * b.coil[1]);
    expect(Math.abs(b.trimmer[0] - trimmer)).toBeLessThan(2.5 * b.trimmer[1]);
    expect(b.leftHz).toBeLessThan(500);
  });
  it("tells a padder from a third mark, and says less doubt than before", () => {
    const two = blame({ ...base, readings: read(0, 0, 0.06, [1.7e6, 4.6e6]) }, t)!;
    const three = blame({ ...base, readings: read(0, 0, 0.06, [1.7e6, 2.8e6, 4.6e6]), padderDoubt: 0.2 }, t)!;
    expect(Math.abs(three.padder[0] - 0.06)).toBeLessThan(2.5 * three.padder[1]);
    expect(three.leftHz).toBeLessThan(500);
    expect(two.leftHz).toBeLessThan(2000);
  });
  it("says coil, direction and per cent, what was assumed, and no turns before a trial", () => {
    const a = ask({ readings: text(read(0.03, 0, 0, [1.7e6, 4.6e6])), readingNoise: "500 Hz", gangLow: "10 pF", gangHigh: "365 pF" });
    expect(a.headline).toMatch(/^The coil is \d(\.\d)? % too large/);
    const f = a.findings.find((x) => x.id.startsWith("tracking-coil"))!;
    expect(f.says).toContain("Assumed: the gang");
    expect(f.do).toContain("trial of a quarter turn");
    expect(f.hazards).toContain("b-plus");
  });
  it("says so where no adjustment will ever do it: the oscillator on the other side", () => {
    const wrong = [1.7e6, 2.3e6, 3e6, 3.8e6, 4.6e6].map((dial, i) => ({ dial, received: dial + (i % 2 === 0 ? 80e3 : -80e3) }));
    expect(ask({ readings: text(wrong) }).headline).toContain("No setting of coil, trimmer and padder explains");
  });
});
it.each([
  [{ low: "5 MHz", high: "4 MHz" }, "high", "crossed"],
  [{ low: "400 kHz", high: "1 MHz" }, "intermediate", "inside-the-band"],
  [{ oscillator: "below", low: "200 kHz", high: "400 kHz" }, "oscillator", "through-nothing"],
  [{ gangHigh: "40 pF" }, "gangHigh", "gang-too-small"],
  [{ readings: "9 MHz, 9 MHz" }, "readings row 1", "not-on-this-band"],
])("refuses %j, with the physical reason", (overrides, path, code) => {
  const r = answer(tracking, emptyBench, { draws: 5, overrides: overrides as never });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| (ends and middle|Chebyshev|least worst error)\s+\| ([\d.]+) kHz/g)];
  expect(rows).toHaveLength(3);
  for (const [, points, worst] of rows) expect(ask({ points }).results.worst.value! / 1e3).toBeCloseTo(Number(worst), 0);
});
