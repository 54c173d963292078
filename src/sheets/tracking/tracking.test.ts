import { describe, expect, it } from "vitest";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { answer } from "../answer";
import { tracking } from "./sheet";
import { adjustment, blame, blameSignal, changedHz, marksOf, otherSideAt, perTurn, type TrackingInputs, tracked } from "./solve";
import theory from "./theory.md";

const base: TrackingInputs = {
  readings: [],
  peaks: [],
  trials: [],
  oscillator: "above",
  padderLayout: "across the gang",
  points: "least worst error",
  low: 1.6e6,
  high: 4.8e6,
  intermediate: 455e3,
  gangLow: 10e-12,
  gangHigh: 365e-12,
  signalQ: 60,
  readingNoise: 500,
  peakDoubt: 0.003,
  ifMoved: 0,
  slugRange: 0.12,
  trimmerTravel: 12e-12,
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
    expect(a.headline).toMatch(/^On 1\.6\d* MHz to 4\.8\d* MHz: the coil is (perhaps )?\d(\.\d)? % too large/);
    const f = a.findings.find((x) => x.id.startsWith("tracking-coil"))!;
    expect(f.says).toContain("Assumed: the gang");
    expect(f.do).toContain("trial of a quarter turn");
    expect(f.hazards).toContain("b-plus");
  });
  it("says so where readings fit no setting at all", () => {
    const wrong = [1.7e6, 2.3e6, 3e6, 3.8e6, 4.6e6].map((dial, i) => ({ dial, received: dial + (i % 2 === 0 ? 80e3 : -80e3) }));
    expect(ask({ readings: text(wrong) }).headline).toContain("no setting of coil, trimmer and padder explains");
  });
});
it.each([
  [{ low: "5 MHz", high: "4 MHz" }, "high", "crossed"],
  [{ low: "400 kHz", high: "1 MHz" }, "intermediate", "inside-the-band"],
  [{ oscillator: "below", low: "200 kHz", high: "400 kHz" }, "oscillator", "through-nothing"],
  [{ oscillator: "below", low: "700 kHz", high: "1.6 MHz" }, "oscillator", "oscillator-on-the-if"],
  [{ gangHigh: "40 pF" }, "gangHigh", "gang-too-small"],
  [{ readings: "9 MHz, 9 MHz" }, "readings row 1", "not-on-this-band"],
  [{ peaks: "2 MHz" }, "peaks row 1", "no-peak"],
  [{ trials: "slug, 0, 2 MHz, 2 MHz, 2.01 MHz" }, "trials row 1", "no-trial"],
])("refuses %j, with the physical reason", (overrides, path, code) => {
  const r = answer(tracking, emptyBench, { draws: 5, overrides: overrides as never });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
describe("the signal circuit, from two peaks", () => {
  const peakAt = (coil: number, trimmer: number, dial: number): number => {
    const { henry, trimmerF } = t.signal;
    const gang = 1 / ((2 * Math.PI * dial) ** 2 * henry) - trimmerF;
    return 1 / (2 * Math.PI * Math.sqrt(henry * (1 + coil) * (gang + trimmerF * (1 + trimmer))));
  };
  const marks = [1.7e6, 4.6e6];
  it.each([
    [0.05, 0],
    [-0.04, 0.2],
    [0, -0.3],
  ])("coil %f and trimmer %f", (coil, trimmer) => {
    const peaks = marks.map((dial) => ({ dial, peaksAt: peakAt(coil, trimmer, dial), needs: Number.NaN }));
    const b = blameSignal({ ...base, peaks }, t)!;
    expect(Math.abs(b.coil[0] - coil)).toBeLessThan(2.5 * b.coil[1]);
    expect(Math.abs(b.trimmer[0] - trimmer)).toBeLessThan(2.5 * b.trimmer[1]);
  });
  it("says the same where what the trimmer needs was read instead of the frequency", () => {
    // a trimmer that is 5 pF short needs 5 pF at any mark
    const short = { dial: 4.6e6, peaksAt: Number.NaN, needs: 5e-12 };
    const b = blameSignal({ ...base, peaks: [short, { ...short, dial: 1.7e6 }] }, t)!;
    expect(b.trimmer[0] * t.signal.trimmerF * 1e12).toBeCloseTo(-5, 0);
  });
  it("names them beside the oscillator's, with what was assumed", () => {
    const a = ask({
      readings: text(read(0.03, 0, 0, [1.7e6, 4.6e6])),
      readingNoise: "500 Hz",
      peaks: marks.map((dial) => `${dial} Hz, ${peakAt(-0.06, 0, dial)} Hz`).join("; "),
    });
    expect(a.headline).toMatch(/: the coil is (perhaps )?[23](\.\d)? % too large.*Of the signal circuit the coil is \d(\.\d)? % too small/);
    expect(a.findings.find((f) => f.id === "tracking-signal-coil")!.says).toContain("Assumed: the gang's sections alike");
  });
});
describe("the next adjustment", () => {
  it("brings both marks right at once, where turning one after the other would take many rounds", () => {
    const now: [number, number, number] = [0.04, -0.15, 0];
    const a = adjustment(base, t, now)!;
    const after = (f: number): number =>
      changedHz(t, t.parts!, f, (1 + now[0]) * (1 + a.slugShare) - 1, now[1] + a.trimmerF / t.parts!.trimmerF, 0) - 455e3 - f;
    for (const f of marksOf(base)) expect(Math.abs(after(f))).toBeLessThan(1);
    // the rest is the design's own error, not more than twice the least there is
    expect(a.leftHz).toBeLessThan(2 * 6875);
  });
  it("knows turns and direction only after a trial, and then takes them from it", () => {
    const readings = text(read(0.03, 0, 0, [1.7e6, 4.6e6]));
    expect(ask({ readings, readingNoise: "500 Hz" }).results.slugTurns.why).toContain("no trial turn");
    // a quarter turn clockwise takes 1 % off the coil
    const [before, after] = [0.03, 1.03 * 0.99 - 1].map((c) => changedHz(t, t.parts!, 1.7e6, c, 0, 0) - 455e3);
    const trials = `slug, 0.25, 1.7 MHz, ${before} Hz, ${after} Hz`;
    const each = perTurn({ ...base, trials: [{ what: 0, turns: 0.25, dial: 1.7e6, before, after }] }, t, [0.03, 0, 0], 0)!;
    expect(Math.abs(each / (-0.0103 / 0.25) - 1)).toBeLessThan(0.02);
    const a = ask({ readings, readingNoise: "500 Hz", trials });
    expect(a.results.slugTurns.value!).toBeGreaterThan(0.5);
    expect(a.results.slugTurns.value!).toBeLessThan(0.9);
    expect(a.findings.find((f) => f.id === "tracking-coil")!.do).toContain("turns of the slug");
  });
});
describe("why it never comes right", () => {
  it("the oscillator on its other side at the high end", () => {
    const mixed = [1.7e6, 2.2e6, 3.9e6, 4.6e6].map((dial) => ({
      dial,
      received: dial > 2.8e6 ? changedHz(t, t.parts!, dial, 0, 0.9, 0) + 455e3 : changedHz(t, t.parts!, dial, 0, 0.9, 0) - 455e3,
    }));
    expect(otherSideAt({ ...base, readings: mixed }, t)).toBe("its high end");
    expect(otherSideAt({ ...base, readings: read(0.03, 0.1, 0, [1.7e6, 3e6, 4.6e6]) }, t)).toBeUndefined();
  });
  it("bandspread plates in mesh, a coil with shorted turns, a trimmer at its end", () => {
    const ids = (readings: string, more = {}) => ask({ readings, readingNoise: "500 Hz", ...more }).findings.map((f) => f.id);
    expect(ids(text(read(0, 0.5, 0, [1.7e6, 3e6, 4.6e6])))).toContain("tracking-meshed");
    const shorted = ask({ readings: text(read(-0.2, 0, 0, [1.7e6, 3e6, 4.6e6])), readingNoise: "500 Hz" }).findings.find((f) =>
      f.id.startsWith("tracking-out-of-range-yes"),
    )!;
    expect(shorted).toMatchObject({ severity: "act", hazards: ["b-plus", "stored-charge"] });
    expect(shorted.do).toContain("shorted turns");
    expect(ids(text(read(0, 0.3, 0, [1.7e6, 3e6, 4.6e6])), { trimmerTravel: "2 pF" }).some((i) => i.endsWith("-yes"))).toBe(true);
  });
});
describe("an IF that was moved up by 1.3 kHz (an invented scenario)", () => {
  it("makes every mark receive 1.3 kHz low with the oscillator above, and can be taken up", () => {
    const a = ask({ ifMoved: "1.3 kHz" });
    expect(a.results.dialShift.value).toBe(-1300);
    expect(a.findings.find((f) => f.id === "tracking-if-moved-yes")!.do).toContain("every band");
    // an IF that went up asks for less coil, or less of the trimmer: the pure shift, free of the design's own error
    expect(Math.abs(a.results.shiftSlug.value!)).toBeLessThan(0.01);
    expect(a.results.shiftSlug.value!).toBeLessThan(0);
    expect(ask({ ifMoved: "0.05 kHz" }).results.shiftSlug.value! / a.results.shiftSlug.value!).toBeCloseTo(0.05 / 1.3, 3);
    expect(ask({ ifMoved: "1.3 kHz", oscillator: "below" }).results.dialShift.value).toBe(1300);
  });
  it("with the oscillator below says that it is not worked out, instead of asking for readings", () => {
    const b = ask({ oscillator: "below", readings: "1.7 MHz, 1.671 MHz; 4.6 MHz, 4.52 MHz" });
    expect(b.findings.map((f) => f.id)).toContain("tracking-no-parts");
    expect(b.headline).not.toContain("Read the dial");
  });
  it("by 40 kHz can't", () =>
    expect(ask({ ifMoved: "40 kHz", slugRange: "2 %", trimmerTravel: "1 pF" }).findings.map((f) => f.id)).toContain(
      "tracking-if-moved-no",
    ));
});
it("both layouts of the padder give one error curve", () => {
  const [a, b] = ["across the gang", "across the coil"].map((padderLayout) => ask({ padderLayout }));
  expect(b.results.worst.value).toBeCloseTo(a.results.worst.value!, 3);
  expect(b.results.coil.value!).toBeLessThan(a.results.coil.value!);
});
it("recomputes the worked example of its page", () => {
  const rows = [...theory.matchAll(/\| (ends and middle|Chebyshev|least worst error)\s+\| ([\d.]+) kHz/g)];
  expect(rows).toHaveLength(3);
  for (const [, points, worst] of rows) expect(ask({ points }).results.worst.value! / 1e3).toBeCloseTo(Number(worst), 0);
});
