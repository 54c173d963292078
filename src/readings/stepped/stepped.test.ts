import { describe, expect, it } from "vitest";
import { orThrow } from "../../units/issue";
import { sweepNoise } from "../level-noise";
import { readSweep } from "../read-sweep";
import { nextLevel, slopeOf } from "./hold";
import { meanOf, planSteps, type SteppedSaid } from "./plan";
import { readStepped, tableHead, tableRow } from "./table";

const said: SteppedSaid = {
  fromHz: 455e3,
  toHz: 475e3,
  pointsCount: 5,
  levelDbm: -60,
  mostDbm: -20,
  settleS: 0.3,
  readingsCount: 4,
  holds: "level",
  avc: "off",
  narrowestHz: 2000,
  betweenPointsDb: 0.2,
};
const refused = (more: Partial<SteppedSaid>) => {
  const r = planSteps({ ...said, ...more });
  return r.ok ? undefined : r.issues[0];
};

describe("a plan of steps", () => {
  it("goes up with the level held, from the middle outwards with the output held", () => {
    expect(orThrow(planSteps(said)).frequencyHz).toEqual([455e3, 460e3, 465e3, 470e3, 475e3]);
    expect(orThrow(planSteps({ ...said, holds: "output", avc: "on" })).frequencyHz).toEqual([465e3, 470e3, 475e3, 460e3, 455e3]);
  });
  it("refuses a step too fast for the narrowest resonance, with the largest rate: exp(-pi B t) = 1/1000", () => {
    // B = 100 Hz: t = ln(1000) / (pi 100) = 0.02199 s, by hand
    expect(refused({ narrowestHz: 100, settleS: 0.0221 })).toBeUndefined();
    const tooFast = refused({ narrowestHz: 100, settleS: 0.0219 });
    expect(tooFast).toMatchObject({ path: "--settle", code: "too-fast" });
    expect(tooFast?.expected).toMatch(/at least 0\.022 s.*at most 2\.3e\+5 Hz a second/);
    expect(Math.exp(-Math.PI * 100 * 0.02199)).toBeCloseTo(1e-3, 5);
  });
  it.each([
    ["--from", { fromHz: 0 }],
    ["--to", { toHz: 455e3 }],
    ["--points", { pointsCount: 4 }],
    ["--most", { mostDbm: 11 }],
    ["--level", { levelDbm: -10 }],
    ["--readings", { readingsCount: 3 }],
    ["--avc", { avc: "on" }],
    ["--settle", { settleS: 61 }],
    ["--narrowest", { narrowestHz: 0 }],
    ["--tone", { modulation: { percent: 30, toneHz: 600 } }],
    ["--modulation", { modulation: { percent: 130, toneHz: 400 } }],
  ] as const)("names %s where that is what can't be", (path, more) => expect(refused(more)?.path).toBe(path));
});

describe("a few readings", () => {
  it("have the mean and the uncertainty of JCGM 101:2008 6.4.9.4", () => {
    // 1, 2, 3, 4: s squared = 5/3, so u = sqrt(5/12) sqrt(3/1), by hand
    const { mean, u } = meanOf([1, 2, 3, 4]);
    expect([mean, u]).toEqual([2.5, expect.closeTo(Math.sqrt(5 / 4), 12)]);
  });
});

describe("an output that is held", () => {
  it("takes the slope between two tries, and no more than it may", () => {
    const tries = [
      { dBm: -60, outputDb: 0 },
      { dBm: -50, outputDb: 1 },
    ];
    expect(slopeOf(tries.slice(0, 1))).toBe(1);
    expect(slopeOf(tries)).toBeCloseTo(0.1, 12);
    expect(nextLevel(tries, 2, 0)).toBeCloseTo(-40, 9);
    expect(nextLevel(tries, 20, 0)).toBe(-30);
    expect(nextLevel(tries, 2, -45)).toBe(-45);
  });
});

describe("a sweep's file", () => {
  const plan = orThrow(planSteps(said));
  const point = (i: number) => ({
    frequencyHz: plan.frequencyHz[i],
    levelDb: -i,
    uDb: 0.3,
    volts: 0.5,
    generatorDbm: -60,
  });
  const file = (...at: number[]) => tableHead(plan, "2026-02-01", "a bench") + at.map((i) => tableRow(point(i))).join("");
  it("is read back as a sweep, its levels with their uncertainty", () => {
    const s = orThrow(readSweep(new TextEncoder().encode(file(0, 1, 2, 3, 4)), "x.csv"));
    expect(Array.from(s.frequencyHz)).toEqual(plan.frequencyHz);
    expect(Array.from(s.levelDb)).toEqual([0, -1, -2, -3, -4]);
    expect(Array.from(s.levelUDb ?? [])).toEqual([0.3, 0.3, 0.3, 0.3, 0.3]);
    expect(sweepNoise(s)).toBeCloseTo(0.3, 12);
    expect(s.warnings).toEqual([]);
  });
  it("that was broken off gives its whole lines, and refuses another sweep", () => {
    expect(orThrow(readStepped(`${file(0, 1)}465000,-`, "x.csv", plan))).toEqual(
      [point(0), point(1)].map((p) => ({ ...p, levelDb: p.levelDb + 0 })),
    );
    expect(orThrow(readStepped(file(3), "x.csv", plan))).toHaveLength(1);
    expect(orThrow(readStepped(file(), "x.csv", plan))).toEqual([]);
    const louder = readStepped(file(0, 1), "x.csv", orThrow(planSteps({ ...said, levelDbm: -50 })));
    expect(louder.ok || louder.issues[0]).toMatchObject({ path: "x.csv", code: "another-sweep" });
    const elsewhere = readStepped(file(0, 1), "x.csv", orThrow(planSteps({ ...said, fromHz: 456e3 })));
    expect(elsewhere.ok || elsewhere.issues[0].read).toBe("455000 Hz");
  });
});
