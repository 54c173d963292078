import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { type Conversion, oscillatorHz, setPointLeverage, signalHz } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { orThrow } from "../../units/issue";
import { evidenceOf } from "./evidence";
import { fitDial } from "./fit";
import { backlashOf, dialAt, dialSlope, readingFor } from "./fitted";
import { judgeDial } from "./judge";
import { bestNextMarker } from "./next-marker";
import { dialCases, inventDial } from "./possible-dials";

const above: Conversion = { intermediateHz: 455e3, oscillator: "above" };
const assumed = { readingNoise: 0.1, zeroBeatHz: 20, backlash: 0.2, backlashU: 0.2 };
const fitted = (points: readonly DialPoint[], more = {}) => orThrow(fitDial(points, above, { ...assumed, ...more }));

describe("limiting cases", () => {
  it("a capacitor of straight lines without noise is given back to two thousandths of a division, and backlash with it", () => {
    const law = (reading: number, approach: number) => signalHz((2e-14 - 8e-17 * (reading - 0.15 * approach)) ** -0.5, above);
    const points = Array.from({ length: 12 }, (_, i): DialPoint => {
      const approach = i % 2 ? 1 : -1;
      return { reading: 5 + 8 * i, approach, frequencyHz: law(5 + 8 * i, approach) };
    });
    const fit = fitted(points, { readingNoise: 0.01, zeroBeatHz: 0 });
    for (const x of [6, 37.7, 92]) for (const a of [-1, 1]) expect(Math.abs(dialAt(fit, x, a).hz - law(x, a))).toBeLessThan(30);
    expect(backlashOf(fit).value).toBeCloseTo(0.3, 2);
    expect(Math.abs(dialSlope(fit, 40) - (law(40.01, 0) - law(39.99, 0)) / 0.02) / dialSlope(fit, 40)).toBeLessThan(1e-3);
  });
  it("from one side only backlash stays as it was expected, and readings from that side do not depend on it", () => {
    const { points } = inventDial(dialCases[2], 5);
    const [a, b] = [0, 0.8].map((backlash) => fitted(points, { backlash, backlashU: 0.2 }));
    expect(backlashOf(b).value).toBeCloseTo(0.8, 1);
    for (const x of [20, 60, 90]) expect(Math.abs(dialAt(a, x).hz - dialAt(b, x).hz)).toBeLessThan(0.1 * dialAt(a, x).uHz);
  });
  it("a scale marked in MHz says what the same scale in a hundred divisions does: law, doubt and odd points", () => {
    const { points } = inventDial(dialCases[2], 5);
    const wrong = points.map((p, i) => (i === 4 ? { ...p, frequencyHz: p.frequencyHz + 50e3 } : p));
    const small = { readingNoise: 0.001, zeroBeatHz: 20, backlash: 0.002, backlashU: 0.002, division: 0.01 };
    for (const own of [points, points.slice(0, 5), wrong]) {
      const hundredths = own.map((p) => ({ ...p, reading: p.reading / 100 }));
      const [a, b] = [judgeDial(own, above, assumed, { spacingHz: 100e3 }), judgeDial(hundredths, above, small, { spacingHz: 100e3 })];
      const [one, other] = [orThrow(a), orThrow(b)];
      expect(other.odd.map((o) => o.index)).toEqual(one.odd.map((o) => o.index));
      for (const p of points.slice(0, 5)) {
        const [x, y] = [dialAt(one.fit, p.reading), dialAt(other.fit, p.reading / 100)];
        expect(Math.abs(x.hz - y.hz)).toBeLessThan(1e-3 * x.uHz);
        expect(Math.abs(y.uHz / x.uHz - 1)).toBeLessThan(1e-3);
      }
    }
  });
  it("an oscillator below the signal is the same law by its own frequency", () => {
    const below: Conversion = { intermediateHz: 455e3, oscillator: "below" };
    expect(signalHz(oscillatorHz(7e6, below), below)).toBe(7e6);
    const dial = inventDial({ ...dialCases[1], conversion: below }, 3);
    const fit = orThrow(fitDial(dial.points, below, assumed));
    for (const x of [10, 50, 90]) expect(Math.abs(dialAt(fit, x).hz - dial.truthHz(x, 1))).toBeLessThan(5 * dialAt(fit, x).uHz);
  });
  it("a set-point that is off moves the ends by the cube of the oscillator's ratio: recomputed from L and C", () => {
    const resonance = (c: number) => 1 / (2 * Math.PI * Math.sqrt(10e-6 * c));
    const [c0, c1, dc] = [170e-12, 140e-12, 1e-17];
    const shift = (c: number) => resonance(c + dc) - resonance(c);
    const signal = (c: number) => resonance(c) - 455e3;
    expect(Math.abs(shift(c1) / shift(c0) / setPointLeverage(signal(c1), signal(c0), above) - 1)).toBeLessThan(1e-4);
  });
});

describe("laws of the fit", () => {
  it("is monotone, and its reading for a frequency is where it says that frequency", () => {
    fc.assert(
      fc.property(fc.nat(5000), fc.nat(3), fc.constantFrom("up", "both"), (seed, k, how) => {
        const fit = fitted(inventDial(dialCases[k], seed, how as "up").points);
        let last = 0;
        for (let i = 0; i <= 50; i++) {
          const { hz, uHz } = dialAt(fit, fit.low + ((fit.high - fit.low) * i) / 50);
          expect(hz).toBeGreaterThan(last);
          expect(uHz).toBeGreaterThan(0);
          last = hz;
        }
        const hz = dialCases[k].lowHz + 0.4 * (dialCases[k].highHz - dialCases[k].lowHz);
        expect(Math.abs(dialAt(fit, readingFor(fit, hz)!).hz - hz)).toBeLessThan(1);
      }),
      { numRuns: 60 },
    );
  });
  it("with hyperparameters held a good marker more never widens the interval, there or anywhere", () => {
    fc.assert(
      fc.property(fc.nat(5000), fc.double({ min: 0.1, max: 0.9, noNaN: true }), (seed, part) => {
        const { points, readingFor: on } = inventDial(dialCases[3], seed);
        const first = fitted(points);
        const before = fitted(points, { held: first });
        const frequencyHz = 3.5e6 + part * 0.5e6;
        const after = fitted([...points, { frequencyHz, approach: 1, reading: on(frequencyHz, 1) }], { held: first });
        for (let i = 0; i <= 20; i++) {
          const x = first.low + ((first.high - first.low) * i) / 20;
          // in z, where the law is linear: Hz differ by the slope that the point itself has moved
          expect(dialAt(after, x).uHz).toBeLessThan(dialAt(before, x).uHz * 1.002);
        }
      }),
      { numRuns: 40 },
    );
  });
  it("covers the truth: the 95 % interval of a normal law over 60 dials", () => {
    let hits = 0;
    let n = 0;
    for (let seed = 0; seed < 60; seed++) {
      const d = inventDial(dialCases[seed % 4], seed);
      const fit = fitted(d.points);
      for (let i = 0; i <= 20; i++) {
        const x = fit.low + ((fit.high - fit.low) * i) / 20;
        const a = dialAt(fit, x);
        if (Math.abs(a.hz - d.truthHz(x, 1)) < 1.96 * a.uHz) hits++;
        n++;
      }
    }
    expect(hits / n).toBeGreaterThan(0.91);
    expect(hits / n).toBeLessThan(0.985);
  });
});

it("evidence is of the readings, whatever they are counted in: ten divisions for one cost ten a point, and labels may be compared", () => {
  const law = (r: number) => signalHz((2e-14 - 4e-17 * r) ** -0.5, above);
  const z = normalStream(2, "readings", 12);
  const points = Array.from(z, (v, i): DialPoint => ({ reading: 5 + 8 * i + 0.1 * v, frequencyHz: law(5 + 8 * i), approach: 1 }));
  const tenfold = points.map((p) => ({ ...p, reading: 10 * p.reading }));
  const [one, ten] = [
    evidenceOf(points, above, assumed)!,
    evidenceOf(tenfold, above, { readingNoise: 1, zeroBeatHz: 20, backlash: 2, backlashU: 2 })!,
  ];
  // the sizes tried for the bend are in divisions, and cost a little either way
  expect(Math.abs(one.log - ten.log - 12 * Math.log(10))).toBeLessThan(3);
});

describe("odd points", () => {
  const how = { spacingHz: 100e3, scale: [-20, 120] as const };
  const judged = (points: readonly DialPoint[], spacingHz = 100e3) => orThrow(judgeDial(points, above, assumed, { ...how, spacingHz }));
  it("finds a marker that was mistaken for its neighbour, and which one it is, on 40 dials, and accuses none that is right", () => {
    for (let seed = 0; seed < 40; seed++) {
      const c = dialCases[seed % 3];
      const { points } = inventDial(c, seed);
      expect(
        judged(points, c.spacingHz).odd.map((o) => o.index),
        `seed ${seed}`,
      ).toEqual([]);
      const wrong = (seed * 7) % points.length;
      const shifted = points.map((p, i) => (i === wrong ? { ...p, frequencyHz: p.frequencyHz + c.spacingHz } : p));
      const { odd } = judged(shifted, c.spacingHz);
      expect(
        odd.map((o) => [o.index, o.cause, o.likelyHz]),
        `seed ${seed}`,
      ).toEqual([[wrong, "neighbour", points[wrong].frequencyHz]]);
    }
  });
  it("tells an approach from the wrong side where the backlash is known, and a pointer that slipped", () => {
    const d = inventDial(dialCases[2], 11);
    const lash = 2;
    const both = d.points.flatMap((p): DialPoint[] => [
      { ...p, approach: 1, reading: p.reading + lash / 2 },
      { ...p, approach: -1, reading: p.reading - lash / 2 + 0.05 },
    ]);
    const wrong = both.map((p, i) => (i === 9 ? { ...p, approach: 1 as const } : p));
    expect(judged(wrong, 50e3).odd.map((o) => [o.index, o.cause])).toEqual([[9, "wrong-side"]]);
    const slipped = inventDial(dialCases[0], 4).points.map((p, i) => (i >= 22 ? { ...p, reading: p.reading + 2.2 } : p));
    const r = judgeDial(slipped, above, assumed, how);
    expect(r.ok ? "" : `${r.issues[0].path} ${r.issues[0].code}`).toMatch(/^points row 23 slipped/);
  });
  it("sees a slip beside an odd point, and names the rows that hold one marker at two readings", () => {
    for (const [slip, off] of [
      [4, 3],
      [8, 5],
      [8, 20],
    ]) {
      const slipped = inventDial(dialCases[2], 4).points.map((p, i) => (i >= 7 ? { ...p, reading: p.reading + slip } : p));
      const twice = [...slipped.slice(0, 3), { ...slipped[2], reading: slipped[2].reading + off }, ...slipped.slice(3)];
      const r = judgeDial(twice, dialCases[2].conversion, assumed, { spacingHz: dialCases[2].spacingHz });
      expect(r.ok ? "" : r.issues[0].code, `${slip} and ${off}`).toMatch(/^(slipped|miscounted)/);
      expect(r.ok ? "" : r.issues[0].expected).toContain("Look first at rows 3 and 4");
    }
  });
  it("notices a marker that was missed or counted twice, from there on, and a scale that slipped, and accuses no right dial of either", () => {
    const code = (points: readonly DialPoint[], spacingHz: number) => {
      const r = judgeDial(points, above, assumed, { ...how, spacingHz });
      return r.ok ? "" : `${r.issues[0].code} ${r.issues[0].path}`;
    };
    for (let seed = 100; seed < 120; seed++)
      for (const k of [1, 2]) {
        const { points } = inventDial(dialCases[k], seed);
        const { spacingHz } = dialCases[k];
        const half = Math.ceil(points.length / 2);
        expect(code(points, spacingHz)).toBe("");
        const missed = points.map((p, i) => (i >= half ? { ...p, frequencyHz: p.frequencyHz + spacingHz } : p));
        expect(code(missed, spacingHz), `${seed} ${k}`).toBe(`miscounted points rows ${half} and ${half + 1}`);
        const slipped = points.map((p, i) => (i >= half ? { ...p, reading: p.reading + 4 } : p));
        // four divisions of a coarse scale are nearly a marker's spacing, and look like it
        expect(code(slipped, spacingHz), `${seed} ${k}`).toMatch(k === 1 ? /^(slipped|miscounted)/ : /^slipped/);
      }
  });
  it("follows a capacitor of straight-line frequency over three to one, and calls none of 17 points odd", () => {
    for (let seed = 0; seed < 60; seed++) {
      const z = normalStream(seed, "slf 17", 17);
      const points = Array.from(
        z,
        (v, i): DialPoint => ({ reading: 3 + (94 * i) / 16 + 0.1 * v, frequencyHz: 1.6e6 + 2e5 * i, approach: 1 }),
      );
      const { fit, odd } = judged(points, 200e3);
      expect(odd, `seed ${seed}`).toEqual([]);
      for (const r of [10, 50, 90]) {
        const a = dialAt(fit, r);
        expect(Math.abs(a.hz - (1.6e6 + (2e5 * (r - 3) * 16) / 94))).toBeLessThan(5 * a.uHz);
      }
    }
  });
  it("says plainly what can't be fitted", () => {
    const { points } = inventDial(dialCases[2], 2);
    const code = (p: readonly DialPoint[], scale = how.scale) => {
      const r = judgeDial(p, above, assumed, { spacingHz: 50e3, scale });
      return r.ok ? `ok ${r.value.repeats}` : `${r.issues[0].path}: ${r.issues[0].code}`;
    };
    expect(code(points.slice(0, 1))).toBe("points: too-few");
    expect(code([...points, points[4]])).toBe("ok 11");
    expect(code([...points, { ...points[4], frequencyHz: 3.6e6 }])).toBe("points row 12: two-at-one");
    expect(code([...points.slice(0, 10), { ...points[10], reading: 130 }])).toBe("points row 11: off-the-scale");
    expect(code(points.map((p) => ({ ...p, reading: 50 })))).toMatch(/two-at-one|no-span/);
    const other = inventDial({ ...dialCases[2], lowHz: 7e6, highHz: 7.5e6 }, 9).points;
    expect(code([...points, ...other.map((p) => ({ ...p, reading: p.reading + 0.01 }))])).toBe("points: not-one-law");
    expect(code(points.map((p, i) => (i % 2 ? p : { ...p, reading: 100 - p.reading })))).toBe("points: not-one-law");
    expect(code(points.map((p) => ({ ...p, reading: 100 - p.reading })))).toBe("ok ");
  });
  it("asks for the marker where the doubt is largest", () => {
    const { points } = inventDial(dialCases[0], 3);
    const gap = points.filter((p) => p.frequencyHz < 2.2e6 || p.frequencyHz > 3.2e6);
    const hz = bestNextMarker(fitted(gap), 1.5e6, 4.3e6, 100e3)!;
    expect(hz).toBeGreaterThan(2.2e6);
    expect(hz).toBeLessThan(3.2e6);
    expect(bestNextMarker(fitted(points), 1.5e6, 4.3e6, 100e3)).toBeUndefined();
  });
});
