/** A generator that steps or sweeps while the sound is recorded: selectivity of a known resonance, and what is refused. */
import { describe, expect, it } from "vitest";
import { orThrow } from "../../units/issue";
import { endsAt } from "./response";
import { heldOutput, type SteppedBy, slotsOf, ToneSteps } from "./tone-steps";
import { made, play, tau } from "./waves.testdata";

const rate = 12_000;
const stepped: SteppedBy = {
  fromHz: 445e3,
  toHz: 465e3,
  pointsCount: 41,
  takesS: 41,
  beginsS: 2,
  toneHz: 400,
  narrowestHz: 2000,
  holds: "level",
  avc: "clamped",
};
/** Level of a single resonance, 4 kHz wide at -3 dB about 455 kHz. */
const levelDb = (hz: number): number => -10 * Math.log10(1 + ((2 * (hz - 455e3)) / 4000) ** 2);
/** The recording: a tone as loud as the strip lets it, where the generator stands; noise beside it. */
const recorded = (by: SteppedBy, noise: number, of = levelDb) =>
  made(
    rate,
    by.beginsS + by.takesS + 1,
    (t) => {
      const part = (t - by.beginsS) / by.takesS;
      if (part < 0 || part >= 1) return 0;
      const steps = by.pointsCount;
      const at = steps === undefined ? part : Math.floor(part * steps) / (steps - 1);
      return 0.3 * 10 ** (of(by.fromHz + (by.toHz - by.fromHz) * at) / 20) * Math.sin(tau * by.toneHz * t);
    },
    noise,
    4,
  );
const heard = (by: SteppedBy, noise: number) => play(new ToneSteps(rate, orThrow(slotsOf(by)), by.toneHz), recorded(by, noise)).told;
const refused = (more: Partial<SteppedBy>) => {
  const r = slotsOf({ ...stepped, ...more });
  return r.ok ? undefined : r.issues[0];
};

describe("a generator with fixed modulation", () => {
  it.each([
    ["in steps", stepped],
    ["in one sweep", { ...stepped, pointsCount: undefined, takesS: 40 }],
  ])("%s gives the resonance that it went over, in noise, within its intervals", (_, by) => {
    const { points, unheard, beyondCount } = heard(by, 0.01);
    expect([unheard, beyondCount]).toEqual([[], 0]);
    const top = points.reduce((a, b) => (b.levelDb > a.levelDb ? b : a));
    for (const p of points)
      expect(Math.abs(p.levelDb - top.levelDb - levelDb(p.hz)), `${p.hz}`).toBeLessThan(4 * Math.hypot(p.uDb, top.uDb) + 0.1);
    const { low, high } = endsAt(points, 3.0103);
    expect(Math.abs(high!.hz - low!.hz - 4000)).toBeLessThan(3 * Math.hypot(low!.uHz, high!.uHz) + 60);
  });
  it("says at which frequencies its tone is under the noise, and how many the recording does not reach", () => {
    const { unheard } = heard(stepped, 0.6);
    expect(unheard).toContain(445e3);
    expect(unheard).not.toContain(455e3);
    const short = play(new ToneSteps(rate, orThrow(slotsOf(stepped)), 400), recorded(stepped, 0.01).subarray(0, 22 * rate)).told;
    expect(short.beyondCount).toBe(21);
  });
  it("refuses a sweep too fast for the narrowest width, with the fastest that is allowed", () => {
    // a tenth of 2 kHz in 0.1 s: 2 kHz a second
    expect(refused({ pointsCount: undefined, takesS: 9.9 })).toMatchObject({ path: "--takes", code: "too-fast" });
    expect(refused({ pointsCount: undefined, takesS: 9.9 })!.expected).toContain("at most 2000 Hz a second, so 10 s or more");
    expect(refused({ pointsCount: undefined, takesS: 10 })).toBeUndefined();
    expect(refused({ pointsCount: undefined, takesS: 99, narrowestHz: 400, toneHz: 100 })).toBeUndefined();
    expect(refused({ pointsCount: undefined, takesS: 40, narrowestHz: 400, toneHz: 100 })!.code).toBe("too-fast");
    // in steps: ln(1000) / (pi 200 Hz) to settle, 11 ms, and 0.3 s to listen
    expect(refused({ takesS: 41 * 0.31, narrowestHz: 400, toneHz: 100 })).toBeUndefined();
    expect(refused({ takesS: 41 * 0.3, narrowestHz: 400, toneHz: 100 })!.code).toBe("too-fast");
  });
  it("refuses AVC at work, and sidebands on the slopes", () => {
    expect(refused({ avc: "on" })).toMatchObject({ path: "--avc", code: "avc-flattens" });
    expect(refused({ avc: "on", holds: "output" })).toBeUndefined();
    expect(refused({ toneHz: 1000 })).toMatchObject({ path: "--tone", code: "sidebands-outside" });
  });
  it("with the output held gives what the generator had to be raised by, and names where it was not held", () => {
    const at = [450e3, 455e3, 460e3];
    const gave = new Map(at.map((hz) => [hz, -60 - levelDb(hz)]));
    const out = [0.1, 0, 2].map((off, i) => ({ hz: at[i], levelDb: off, uDb: 0.05 }));
    const { points, notHeld } = heldOutput(out, gave, "clamped");
    expect(notHeld).toEqual([460e3]);
    expect(points[0].levelDb - points[1].levelDb).toBeCloseTo(levelDb(450e3) + 0.1, 6);
    // with AVC on a tenth of a decibel at the output may be a whole one at the input
    expect(heldOutput(out, gave, "on").points[1].uDb).toBeGreaterThan(0.9);
  });
});
