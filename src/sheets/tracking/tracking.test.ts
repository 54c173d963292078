import { describe, expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { resolveInputs } from "../../ask/resolve";
import { type Bench, emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { blame, tradesOf } from "./blame";
import { allRight, oscillatorHz, tracked } from "./circuit";
import { ask, base, noise, off, read, runsAt, shareOf, t, text, three, two } from "./oscillator.testdata";
import { tracking } from "./sheet";
import { blameSignal } from "./signal";
import theory from "./theory.md";

describe("a dial that is drawn to the oscillator", () => {
  it("is right all over where every part is: nothing to do, and no part is named", () => {
    const a = ask({ readings: text([1.7e6, 2.3e6, 3.1e6, 4.6e6].map((f) => ({ dial: f, received: f }))), ...noise(500) });
    expect(a.headline).toContain("nothing to do");
    expect(a.findings.map((f) => f.id)).toContain("tracking-right");
    expect(a.findings.filter((f) => f.severity === "act")).toEqual([]);
    for (const n of ["coilOff", "padderOff", "acrossOff"]) {
      expect(a.results[n].low!, n).toBeLessThan(0);
      expect(a.results[n].high!, n).toBeGreaterThan(0);
    }
  });
  it("differs from one that is drawn to the signal circuit by the design's own error: right at the three exact points alone", () => {
    const signal = tracked({ ...base, dialDrawnTo: "signal circuit" })!;
    const errors = [1.6e6, 2e6, 2.5e6, 3.5e6, 4.8e6].map((f) => oscillatorHz(signal, signal.parts!, f, allRight) - 455e3 - f);
    expect(Math.max(...errors.map(Math.abs))).toBeGreaterThan(5e3);
    expect(runsAt(2e6, allRight) - 455e3).toBeCloseTo(2e6, 3);
    // the dial of such a set is off by the design, and that is no fault either
    const rows = two.map((dial) => ({ dial, received: oscillatorHz(signal, signal.parts!, dial, allRight) - 455e3 }));
    const a = ask({ dialDrawnTo: "signal circuit", readings: text(rows), ...noise(500) });
    expect(a.headline).toContain("as right as this design allows");
  });
});

describe("which part is off", () => {
  it.each([
    [0.03, 0, 0],
    [-0.02, 0.1, 0],
    [0, -0.2, 0],
    [0, 0, -0.08],
  ])("coil %f and trimmer %f, padder %f, from three marks", (coil, trimmer, padder) => {
    const b = blame({ ...base, readings: read(coil, trimmer, padder, three) }, t)!;
    expect(Math.abs(b.off.coil - coil)).toBeLessThan(2 * b.u[0]);
    expect(Math.abs(b.off.trimmer - trimmer)).toBeLessThan(2 * b.u[1]);
    expect(Math.abs(b.off.padder - padder)).toBeLessThan(2 * b.u[2]);
    expect(b.leftHz).toBeLessThan(500);
  });
  it("says from two marks which parts it can't tell apart, and from three with little noise that it can", () => {
    const b = blame({ ...base, readings: read(0, 0, -0.06, two) }, t)!;
    expect(tradesOf(b).map((p) => [p.one, p.other, p.together])).toContainEqual(["coil", "padder", false]);
    const a = ask({ readings: text(read(0, 0, -0.06, two)), ...noise(500) });
    expect(a.findings.map((f) => f.says).join(" ")).toContain("can't tell a larger coil from a larger padder");
    expect(a.findings.map((f) => f.do ?? "").join(" ")).toContain("third mark in the middle");
    const sharp = blame({ ...base, readingNoise: shareOf(20), gangDoubt: 1e-14, readings: read(0, 0, -0.06, three) }, t)!;
    expect(tradesOf(sharp)).toEqual([]);
  });
  it("names the one part that could do it by itself where three marks leave it open", () => {
    const a = ask({ readings: text(read(0, 0, -0.1, three)), ...noise(1500) });
    expect(a.headline).toMatch(/padder.*too small/);
  });
  it("says coil, direction and per cent, what was assumed, and no turns before a trial", () => {
    const a = ask({ readings: text(read(0.05, 0, 0, three)), ...noise(500), gangLow: "10 pF", gangHigh: "365 pF" });
    expect(a.headline).toMatch(/On 1\.6\d* MHz to 4\.8\d* MHz: the coil is (perhaps )?\d(\.\d)? % too large/);
    const f = a.findings.find((x) => x.id.startsWith("tracking-coil"))!;
    expect(f.says).toContain("Assumed: the gang as entered above, give or take 2 pF");
    expect(f.says).toContain("the dial drawn to the oscillator");
    expect(f.do).toContain("trial of a quarter turn");
    expect(f.hazards).toContain("b-plus");
  });
  it("says so where readings fit no setting at all, with no more digits than reading them gives, and tells no part", () => {
    const wrong = [1.7e6, 2.3e6, 3e6, 3.8e6, 4.6e6].map((dial, i) => ({ dial, received: dial + (i % 2 === 0 ? 80e3 : -80e3) }));
    const a = ask({ readings: text(wrong) });
    expect(a.headline).toContain("no setting of coil, trimmer and padder explains");
    expect(a.results.coilOff.value).toBe(null);
    expect(a.findings.find((f) => f.id === "tracking-unexplained")!.says).toMatch(/leave \d+(\.\d{1,2})? kHz unexplained/);
  });
  it("takes a counted oscillator for a reading", () => {
    const rows = three.map((dial) => `${dial} Hz, , ${runsAt(dial, off(0.05, 0, 0))} Hz`).join("; ");
    const [counted, received] = [rows, text(read(0.05, 0, 0, three))].map((readings) => ask({ readings, ...noise(500) }).results.coilOff);
    expect(counted.value!).toBeCloseTo(received.value!, 6);
    expect(counted.low!).toBeGreaterThan(0);
  });
});
describe("what a reading is good for", () => {
  it("is a share of the frequency read: a circuit with every frequency so many times higher is told of alike", () => {
    const told = [0.375, 1, 6.25].map((k) => {
      const hz = (v: number): string => `${v * k} Hz`;
      const readings = read(0.05, 0, 0, three)
        .map((r) => `${hz(r.dial)}, ${hz(r.received)}`)
        .join("; ");
      // at 0.6 MHz, 1.6 MHz and 10 MHz at the low end, with nothing said of the noise
      return ask({ low: hz(1.6e6), high: hz(4.8e6), intermediate: hz(455e3), readings }).results.coilOff;
    });
    for (const f of [told[0], told[2]]) {
      expect(f.low! / told[1].low!).toBeCloseTo(1, 6);
      expect(f.high! / told[1].high!).toBeCloseTo(1, 6);
    }
  });
  it("comes from the scale's own readings where these were taken and the scale is marked in frequency", () => {
    const scale = (unit: number): Bench => ({
      ...emptyBench,
      at: "bands.80:3.5 MHz",
      points: () => [1.6e6, 4.9e6].map((f) => ({ reading: f / unit, frequencyHz: f, approach: 0 as const })),
      quantity: (p) =>
        p === "bands.80.readingNoiseDivisions"
          ? { value: 5, spread: { shape: "exact" }, origin: "measured", source: "read ten times" }
          : undefined,
    });
    // five marks of 1 kHz at 2.8 MHz
    expect(orThrow(resolveInputs(tracking, scale(1e3))).plain.readingNoise).toBeCloseTo(5e3 / 2.8e6, 9);
    expect(orThrow(resolveInputs(tracking, scale(5e4))).plain.readingNoise).toBe(0.001);
  });
});
describe("the gang's own capacitance", () => {
  it("in doubt widens the trimmer, not what is across the gang in all, which is what its screw sets", () => {
    const readings = text(read(0, 0.2, 0, three));
    const [sure, unsure] = ["0.1 pF", "2 pF"].map((gangDoubt) => ask({ readings, ...noise(500), gangDoubt }).results);
    const width = (f: { low: number | null; high: number | null }): number => f.high! - f.low!;
    expect(width(unsure.trimmerOff)).toBeGreaterThan(1.5 * width(sure.trimmerOff));
    expect(unsure.acrossOff.low!).toBeGreaterThan(0);
    // 20 % of the trimmer that the design has
    const across = 0.2 * unsure.trimmer.value!;
    expect(unsure.acrossOff.low!).toBeLessThan(across);
    expect(unsure.acrossOff.high!).toBeGreaterThan(across);
  });
});
describe("a part, or the gang itself", () => {
  // 2 pF too much all over, every part right
  const rows = three.map((dial) => ({ dial, received: runsAt(dial, { ...allRight, gangF: [2e-12, 0, 0] }) - 455e3 }));
  const of = (gangDoubt: string) => {
    const a = ask({ readings: text(rows), ...noise(500), gangDoubt });
    return { headline: a.headline, part: a.findings.find((f) => f.id === "tracking-trimmer")! };
  };
  it("is a tie where the gang's doubt explains the readings as well: to be looked at, and nothing to be turned first", () => {
    const { headline, part } = of("2 pF");
    expect(headline).toMatch(/there is perhaps .* across the gang \(trimmer or strays\), or the gang itself is bent\./);
    expect(part.severity).toBe("check");
    expect(part.says).toContain("Or the gang itself is bent: within its uncertainty of 2");
    expect(part.do).toMatch(/^Turn nothing yet\. Look at the gang.*Only if it is straight: begin with the trimmer/);
  });
  it("keeps sound parts within their intervals where the gang goes off with its turn by 1.5 pF", () => {
    for (const gangF of [
      [0, 1.5e-12, 0],
      [0, 0, 1.5e-12],
    ] as const) {
      const readings = three.map((dial) => ({
        dial,
        received: runsAt(dial, { ...allRight, gangF: [...gangF] }) - 455e3,
        counted: Number.NaN,
      }));
      const b = blame({ ...base, readingNoise: shareOf(200), readings }, t)!;
      for (const [i, at] of [b.off.coil, b.off.trimmer, b.off.padder].entries()) expect(Math.abs(at)).toBeLessThan(1.96 * b.u[i]);
    }
  });
  it("is none where the gang was measured", () => {
    const { headline, part } = of("0.1 pF");
    expect(headline).not.toContain("bent");
    expect(part.severity).toBe("act");
    expect(part.do).toMatch(/^Begin with the trimmer/);
  });
});
describe("other designs", () => {
  it("own exact points are exact, and must be as many as the circuit has", () => {
    const x = { ...base, points: "own", exactAt: [{ at: 1.75e6 }, { at: 2.9e6 }, { at: 4.5e6 }] } as const;
    const own = tracked({ ...x, dialDrawnTo: "signal circuit" })!;
    for (const { at } of x.exactAt) expect(Math.abs(oscillatorHz(own, own.parts!, at, allRight) - 455e3 - at)).toBeLessThan(0.01);
    expect(ask({ points: "own", exactAt: "1.75 MHz; 2.9 MHz; 4.5 MHz" }).results.worst.value!).toBeGreaterThan(6875);
  });
  it("a trimmer without a padder is exact at two points, and has no padder to be off", () => {
    const narrow = { padderLayout: "no padder", low: "14 MHz", high: "16 MHz" };
    const a = ask({ ...narrow, readings: "14.2 MHz, 14.25 MHz; 15.8 MHz, 15.9 MHz", ...noise(2000, 14e6, 16e6) });
    expect(a.results.padder.why).toBe("there is none");
    expect(a.results.padderOff.why).toBe("there is none");
    expect(a.headline).not.toContain("padder");
    const own = {
      ...base,
      low: 14e6,
      high: 16e6,
      padderLayout: "no padder",
      points: "own",
      exactAt: [{ at: 14.3e6 }, { at: 15.7e6 }],
    } as const;
    const x = tracked({ ...own, dialDrawnTo: "signal circuit" })!;
    for (const { at } of own.exactAt) expect(Math.abs(oscillatorHz(x, x.parts!, at, allRight) - 455e3 - at)).toBeLessThan(0.01);
    expect(x.parts!.layout).toBe("no padder");
  });
});
it.each<[Record<string, string>, string, string]>([
  [{ low: "5 MHz", high: "4 MHz" }, "high", "crossed"],
  [{ low: "400 kHz", high: "1 MHz" }, "intermediate", "inside-the-band"],
  [{ oscillator: "below", low: "200 kHz", high: "400 kHz" }, "oscillator", "through-nothing"],
  [{ oscillator: "below", low: "700 kHz", high: "1.6 MHz" }, "oscillator", "oscillator-on-the-if"],
  [{ gangHigh: "40 pF" }, "gangHigh", "gang-too-small"],
  [{ readings: "9 MHz, 9 MHz" }, "readings row 1", "not-on-this-band"],
  [{ readings: "2 MHz, , 1.545 MHz" }, "readings row 1", "not-on-this-band"],
  [{ readings: "2 MHz" }, "readings row 1", "nothing-read"],
  [{ points: "own", exactAt: "2 MHz; 3 MHz" }, "exactAt", "not-these-points"],
  [{ points: "own", padderLayout: "no padder", exactAt: "2 MHz; 2 MHz" }, "exactAt", "not-these-points"],
  [{ peaks: "2 MHz" }, "peaks row 1", "no-peak"],
  [{ trials: "slug, 0, 2 MHz, 2 MHz, 2.01 MHz" }, "trials row 1", "no-trial"],
])("refuses %j, with the physical reason", (overrides, path, code) => {
  const r = answer(tracking, emptyBench, { draws: 5, overrides });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
describe("the signal circuit, from two peaks", () => {
  const peakAt = (coil: number, trimmer: number, dial: number): number => {
    const { henry, trimmerF } = t.signal;
    const gang = t.gangF(dial);
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
    expect(Math.abs(b.coil - coil)).toBeLessThan(2.5 * b.factor[0]);
    expect(Math.abs(b.trimmer - trimmer)).toBeLessThan(2.5 * Math.hypot(b.factor[2], b.factor[3]));
  });
  it("says the same where what the trimmer needs was read instead of the frequency", () => {
    // a trimmer that is 5 pF short needs 5 pF at any mark
    const short = { dial: 4.6e6, peaksAt: Number.NaN, needs: 5e-12 };
    const b = blameSignal({ ...base, peaks: [short, { ...short, dial: 1.7e6 }] }, t)!;
    expect(b.trimmer * t.signal.trimmerF * 1e12).toBeCloseTo(-5, 0);
  });
  it("names them beside the oscillator's, with what was assumed", () => {
    const a = ask({
      readings: text(read(0.05, 0, 0, three)),
      ...noise(500),
      peaks: marks.map((dial) => `${dial} Hz, ${peakAt(-0.06, 0, dial)} Hz`).join("; "),
    });
    expect(a.headline).toMatch(
      /: the coil is (perhaps )?[3-6](\.\d)? % too large.*In the signal circuit the coil is \d(\.\d)? % too small/,
    );
    expect(a.findings.find((f) => f.id === "tracking-signal-coil")!.says).toContain("Assumed: the gang's sections alike");
  });
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
