/** The level of a hand on a screwdriver, against sounds of known content. */
import { describe, expect, it } from "vitest";
import { LevelMeter } from "./level";
import { type PeakNow, PeakWatch } from "./peak";
import { CalmFigure, TopWatch } from "./top";
import { made, play, tau } from "./waves.testdata";

const rate = 48_000;
const db = (v: number): number => 20 * Math.log10(v);
/** What is shown as a sound goes by in pieces of 5 ms. */
function shownBy(x: Float64Array, watch = new PeakWatch(rate, { of: "tone" }), each = 256): (PeakNow & { readonly givenS: number })[] {
  const out: (PeakNow & { readonly givenS: number })[] = [];
  for (let at = 0; at < x.length; at += each) {
    watch.push(x.subarray(at, at + each));
    out.push({ ...watch.now, givenS: Math.min(x.length, at + each) / rate });
  }
  return out;
}
/**
 * A voice: a buzz of harmonics up to 1.8 kHz whose pitch and loudness move as speech does, invented. Those about 2 kHz would lie on the tone itself: a BFO
 * folds the far sideband over.
 */
function voice(seconds: number, amplitude: number): Float64Array {
  const out = new Float64Array(rate * seconds);
  let phase = 0;
  for (let i = 0; i < out.length; i++) {
    const t = i / rate;
    phase += (tau * (125 + 18 * Math.sin(tau * 0.7 * t) + 7 * Math.sin(tau * 2.3 * t))) / rate;
    const loud = Math.max(0, Math.sin(tau * 2.5 * t) + 0.5 * Math.sin(tau * 0.7 * t));
    let v = 0;
    for (let h = 1; h <= 12; h++) v += Math.sin(h * phase) / Math.sqrt(h);
    out[i] = (amplitude * loud * v) / 2;
  }
  return out;
}

describe("level", () => {
  it.each([0, 3.1, 8, 11.7, -6])("of a sine is its rms, known to a bin: %f Hz off", (off) => {
    const meter = new LevelMeter(12_000);
    meter.push(made(12_000, 0.2, (t) => 0.3 * Math.sin(tau * 1000 * t + 0.7)));
    expect(meter.toneDbfs(1000 + off)).toBeCloseTo(db(0.3 / Math.SQRT2), 2);
    expect(meter.wholeDbfs).toBeCloseTo(db(0.3 / Math.SQRT2), 1);
  });
  it("of noise is its deviation, whatever DC stands under it; of a tone in it, the tone's", () => {
    const meter = new LevelMeter(12_000);
    let sum = 0;
    const x = made(12_000, 12, () => 0.2, 0.1, 4);
    for (let at = 0; at + 720 <= x.length; at += 720) {
      meter.push(x.subarray(at, at + 720));
      sum += 10 ** (meter.wholeDbfs / 10);
    }
    // 200 windows of 720 samples, a third of them by weight: 0.03 dB
    expect(10 * Math.log10(sum / Math.floor(x.length / 720))).toBeCloseTo(-20, 0);
  });
});

describe("tone among speech", () => {
  it("a step of 1 dB of a station's carrier shows as 1 dB, its beat with the BFO among sidebands of a voice; the whole swings by far more", () => {
    const speech = voice(10, 1.5);
    const beat = made(rate, 10, (t) => 0.1 * (t < 6 ? 1 : 10 ** (-1 / 20)) * Math.sin(tau * 1000 * t));
    const x = beat.map((v, i) => v * (1 + speech[i]));
    const seen = shownBy(x);
    const between = (from: number, to: number, of = seen) => of.filter((s) => s.givenS > from && s.givenS < to).map((s) => s.levelDbfs);
    const mean = (v: number[]) => v.reduce((a, b) => a + b, 0) / v.length;
    const swing = (v: number[]) => Math.max(...v) - Math.min(...v);
    const { measures } = seen.at(-1)!;
    expect(measures !== "whole" && measures.tone).toBeCloseTo(1000, 0);
    expect(Math.abs(mean(between(2, 6)) - mean(between(6.1, 10)) - 1)).toBeLessThan(0.05);
    expect(swing(between(2, 6))).toBeLessThan(0.3);
    expect(swing(between(2, 6, shownBy(x, new PeakWatch(rate, { of: "whole" }))))).toBeGreaterThan(4);
  });
  it("a voice alone is no steady tone, nor is noise, nor the mains", () => {
    expect(play(new PeakWatch(rate, { of: "tone" }), voice(12, 0.2)).told.events).toEqual([]);
    expect(
      play(
        new PeakWatch(rate, { of: "tone" }),
        made(rate, 30, () => 0, 0.1),
      ).told.events,
    ).toEqual([]);
    expect(
      play(
        new PeakWatch(rate, { of: "tone" }),
        made(rate, 6, (t) => 0.1 * Math.sin(tau * 120 * t), 0.001),
      ).told.events,
    ).toEqual([]);
    // a line of it far under the rest
    expect(
      play(
        new PeakWatch(rate, { of: "tone" }),
        made(rate, 6, (t) => 0.002 * Math.sin(tau * 360 * t), 0.05),
      ).told.events,
    ).toEqual([]);
  });
  it("a tone that comes is told, one that goes is told, another is told, and its best begins anew", () => {
    const x = made(
      rate,
      16,
      (t) => (t < 4 ? 0.1 * Math.sin(tau * 1000 * t) : t < 6 || t > 13 ? 0 : 0.05 * Math.sin(tau * 1520.3 * t)),
      0.002,
    );
    const { events, stretches } = play(new PeakWatch(rate, { of: "tone" }), x).told;
    expect(events.map((e) => e.kind)).toEqual(["found", "lost", "another", "lost"]);
    expect(events[0].hz).toBeCloseTo(1000, 0);
    expect(events[2].hz).toBeCloseTo(1520.3, 0);
    expect(events[0].atS).toBeLessThan(1.8);
    expect(events[1].atS).toBeGreaterThan(4.9);
    expect(events[1].atS).toBeLessThan(5.4);
    expect(stretches).toHaveLength(3);
    expect(stretches[2].last!.bestDb).toBeCloseTo(db(0.05 / Math.SQRT2), 1);
  });
  it("is followed where it drifts, its level unchanged", () => {
    // 30 Hz a second from the third second on
    const seen = shownBy(made(rate, 10, (t) => 0.1 * Math.sin(tau * (800 * t + 15 * Math.max(0, t - 3) ** 2)), 0.0005));
    const late = seen.filter((s) => s.givenS > 2);
    for (const s of late) expect(Math.abs(s.levelDbfs - db(0.1 / Math.SQRT2))).toBeLessThan(0.15);
    const { measures } = late.at(-1)!;
    expect(measures !== "whole" && measures.tone).toBeGreaterThan(1000);
  });
});

describe("latency", () => {
  it.each([6, -6, 20, -20])("a step of %f dB is half shown within 45 ms of its sound", (step) => {
    const x = made(rate, 4, (t) => 0.02 * (t < 3 ? 1 : 10 ** (step / 20)) * Math.sin(tau * 1000 * t), 0.0001);
    const seen = shownBy(x);
    const before = seen.find((s) => s.givenS > 2.9)!.levelDbfs;
    const half = seen.find((s) => s.givenS > 3 && Math.sign(step) * (s.levelDbfs - before) > Math.abs(step) / 2)!;
    expect(half.givenS - 3).toBeLessThan(0.045);
    const nearly = seen.find((s) => s.givenS > 3 && Math.abs(s.levelDbfs - before - step) < 0.5)!;
    expect(nearly.givenS - 3).toBeLessThan(0.06);
  });
});

describe("top", () => {
  /** A can of so wide a top, turned through it once up and back; dB against its top. */
  const turned = (t: number): number =>
    -10 * Math.log10(1 + ((t < 6 ? t - 4 : t < 9.2 ? 2 - (t - 6) / 1.6 : t < 12 ? 0 : -0.5) / 0.8) ** 2);
  it("is held, its passage told at its time, and the way back to it shown", () => {
    const x = made(rate, 14, (t) => 0.1 * 10 ** (turned(t) / 20) * Math.sin(tau * 700 * t), 0.0005);
    const seen = shownBy(x, new PeakWatch(rate, { of: "tone", range: { fromHz: 600, toHz: 800 } }));
    const place = (s: number) => seen.find((v) => v.givenS > s)!.top!.place;
    expect(place(3.3)).toBe("climbing");
    expect(place(5)).toBe("past the top");
    expect(place(8.5)).toBe("climbing");
    expect(place(11)).toBe("at the top");
    expect(place(13)).toBe("past the top");
    expect(seen.find((v) => v.givenS > 5.5)!.top!.trend).toBe("falling");
    expect(seen.find((v) => v.givenS > 13)!.top!.trend).toBe("steady");
    const now = seen.at(-1)!;
    expect(now.top!.bestDb).toBeCloseTo(db(0.1 / Math.SQRT2), 1);
    expect(now.top!.underDb).toBeCloseTo(turned(14), 1);
    expect(now.shown!.db).toBeCloseTo(turned(14), 1);
    expect(now.shown!.digits).toBe(1);
  });
  it("passages over a top that is crossed three times are three, each at its time", () => {
    const x = made(rate, 14, (t) => 0.1 * 10 ** ((-6 * Math.cos((Math.PI * t) / 2) ** 2) / 20) * Math.sin(tau * 700 * t), 0.0005);
    const { stretches } = play(new PeakWatch(rate, { of: "tone" }), x.subarray(0, 8 * rate)).told;
    const at = stretches.at(-1)!.passages.map((p) => p.atS);
    expect(at).toHaveLength(3);
    for (const [i, s] of at.entries()) expect(Math.abs(s - (3 + 2 * i))).toBeLessThan(0.2);
  });
  it("scatter of noise is no passage, a click no best", () => {
    const noisy = play(
      new PeakWatch(rate, { of: "whole" }),
      made(rate, 60, () => 0, 0.05),
    ).told.stretches[0];
    expect(noisy.passages).toEqual([]);
    const clicks = made(rate, 6, (t) => (t > 3 && t < 3.02 ? 0.9 : 0.05) * Math.sin(tau * 1000 * t));
    expect(play(new PeakWatch(rate, { of: "whole" }), clicks).told.stretches[0].last!.bestDb).toBeCloseTo(db(0.05 / Math.SQRT2), 1);
  });
  it("trend is the slope, dB a second", () => {
    const watch = new TopWatch(0.01, 6);
    for (let i = 0; i < 300; i++) watch.take(i / 100, -20 + (1.5 * i) / 100);
    expect(watch.now!.slopeDbPerS).toBeCloseTo(1.5, 6);
    expect(watch.now!.place).toBe("climbing");
    for (let i = 300; i < 500; i++) watch.take(i / 100, -15.5 - (0.15 * (i - 300)) / 100);
    expect(watch.now!.trend).toBe("steady");
  });
  it("a level that only falls is below the best, not past a top", () => {
    const watch = new TopWatch(0.01, 6);
    for (let i = 0; i < 300; i++) watch.take(i / 100, -20 - i / 100);
    expect(watch.now!.place).toBe("below the best");
    expect(watch.passages).toEqual([]);
  });
  it("a figure stands still on its digit, and has no more of them than it is known to", () => {
    const calm = new CalmFigure();
    expect(calm.take(-1.23, 0.01)).toEqual({ db: expect.closeTo(-1.2, 9), digits: 1 });
    expect(calm.take(-1.26, 0.01).db).toBeCloseTo(-1.2, 9);
    expect(calm.take(-1.28, 0.01).db).toBeCloseTo(-1.3, 9);
    expect(calm.take(-1.22, 0.4)).toEqual({ db: expect.closeTo(-1.3, 9), digits: 0 });
    expect(calm.take(-2.2, 0.4).db).toBe(-2);
  });
});

it("the same whether it comes in pieces or at once, and best begun afresh forgets", () => {
  const x = made(rate, 5, (t) => 0.1 * (1 + 0.3 * Math.sin(tau * 0.4 * t)) * Math.sin(tau * 1000 * t), 0.001);
  const [whole, parts] = [new PeakWatch(rate, { of: "tone" }), new PeakWatch(rate, { of: "tone" })];
  whole.push(x);
  expect(play(parts, x).told).toEqual(whole.told);
  const best = whole.now.top!.bestDb;
  whole.afresh();
  whole.push(made(rate, 1, (t) => 0.01 * Math.sin(tau * 1000 * t), 0.001));
  expect(whole.now.top!.bestDb).toBeLessThan(best - 10);
  expect(whole.told.stretches).toHaveLength(3);
});
