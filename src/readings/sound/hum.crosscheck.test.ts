/**
 * Lines of the mains against scipy 1.17.1 on recordings by others: sines at all multiples fitted by least squares to stretches of 1 s (of 4 s for the mains
 * itself) at the frequency that explains most, by bench/ear.py lines; and against sums of known content.
 */
import { describe, expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { orThrow } from "../../units/issue";
import { bytesOf, here } from "../shared-readings.testdata";
import { readWav } from "../wav";
import { Hum } from "./hum";
import { made, play, tau } from "./waves.testdata";

describe.runIf(here("receiver-audio/noise-mid.wav", "mains-50Hz/003_ref.wav"))("recordings by others, against scipy", () => {
  it.each([
    ["receiver-audio/noise-mid.wav", 60, 60.0146, { 1: -49.183, 2: -45.954, 3: -55.286, 4: -60.242 }],
    ["receiver-audio/krch-am.wav", 60, 59.9945, { 1: -50.238, 2: -46.297, 3: -57.364 }],
    ["mains-50Hz/003_ref.wav", 50, 50.00646, { 1: -8.793, 2: -60.566, 3: -44.185 }],
  ])("%s: lines within 0.1 dB", (file, nominal, mains, lines) => {
    const w = orThrow(readWav(bytesOf(file), file));
    const ask = { secondsCount: w.samplesCount / w.sampleRateHz };
    const told = play(new Hum(w.sampleRateHz, ask), w.samples(0, 0, w.samplesCount)).told;
    expect(told.nominalHz).toBe(nominal);
    expect(Math.abs(told.mains!.hz - mains)).toBeLessThan(Math.max(2 * told.mains!.uHz, 1e-4));
    for (const [order, db] of Object.entries(lines)) {
      const line = told.lines[Number(order) - 1];
      expect([line.stands, Math.abs(line.rmsDbfs - db) < 0.1], `${order}: ${line.rmsDbfs} against ${db}`).toEqual([true, true]);
    }
  });
  it("a receiver's hum on its carrier, 4 Hz beside 120 Hz, is not taken for the mains", () => {
    const w = orThrow(readWav(bytesOf("receiver-audio/wwv1.wav"), "wwv1.wav"));
    const told = play(new Hum(w.sampleRateHz, { secondsCount: w.samplesCount / w.sampleRateHz }), w.samples(0, 0, w.samplesCount)).told;
    expect(Math.abs(told.mains!.hz - 60)).toBeLessThan(0.05);
  });
});

describe("sums of known content", () => {
  const rmsDb = (amplitude: number): number => 20 * Math.log10(amplitude / Math.SQRT2);
  const hummed = (hz: number, amplitudes: Readonly<Record<number, number>>) => {
    const parts = Object.entries(amplitudes).map(([o, a]) => ({ a, w: tau * Number(o) * hz, from: Number(o) }));
    return (t: number): number => {
      let s = 0;
      for (const { a, w, from } of parts) s += a * Math.sin(w * t + from);
      return s;
    };
  };
  it.each([
    [48_000, 60.03],
    [44_100, 49.93],
    [8000, 50.0],
  ])("at %i Hz, mains of %f Hz, beside speech-like noise and a loud note", (rate, hz) => {
    const amplitudes = { 1: 0.004, 2: 0.02, 3: 0.001, 4: 0.006 };
    const hum = hummed(hz, amplitudes);
    const x = made(rate, 20, (t) => hum(t) + 0.2 * Math.sin(tau * 1013 * t), 0.01);
    const told = play(new Hum(rate), x).told;
    expect(Math.abs(told.mains!.hz - hz)).toBeLessThan(3 * told.mains!.uHz);
    for (const [o, a] of Object.entries(amplitudes)) {
      const { rmsDbfs, uDb } = told.lines[Number(o) - 1];
      expect(Math.abs(rmsDbfs - rmsDb(a))).toBeLessThan(Math.max(0.1, 3 * uDb));
      expect(uDb).toBeLessThan(0.5);
    }
    expect(told.lines.slice(4).filter((l) => l.stands)).toEqual([]);
  });
  it("the mains' interval holds the truth where sound is lost on its way in, after one look or many", () => {
    const z = Array.from({ length: 48 }, (_, i) => {
      const random = normalStream(i + 1, "lost", 60);
      const [seconds, losses] = i % 2 ? [20, 30] : [5, 8];
      const x = made(2000, seconds, hummed(60.03, { 1: 0.02, 2: 0.1 }), 0.001, i + 1);
      const lost = Array.from({ length: losses }, (__, k) => [
        (seconds * (k + 0.5)) / losses + random[k],
        0.005 + 0.03 * Math.abs(random[k + 6]),
      ]);
      const heard = x.filter((__, j) => !lost.some(([at, s]) => j > 2000 * at && j < 2000 * (at + s)));
      const { mains } = play(new Hum(2000), heard).told;
      return Math.abs(mains!.hz - 60.03) / mains!.uHz;
    });
    // 95 of a hundred are meant; fewer than 40 of 48 come of that once in 1200, one beyond four once in 300
    expect(Math.max(...z)).toBeLessThan(4);
    expect(z.filter((v) => v < 1.96).length, z.map((v) => v.toFixed(1)).join(" ")).toBeGreaterThanOrEqual(40);
  });
  it("intervals hold the truth about as often as they say", () => {
    const inside = Array.from({ length: 30 }, (_, seed) => {
      const l = play(new Hum(4000), made(4000, 12, hummed(60, { 1: 0.004, 2: 0.004 }), 0.02, seed)).told.lines;
      return [0, 1].filter((i) => Math.abs(l[i].rmsDbfs - rmsDb(0.004)) < 1.96 * l[i].uDb).length;
    }).reduce((s, v) => s + v, 0);
    // 57 of 60 by what they say; fewer than 50 would be no 95 %
    expect(inside).toBeGreaterThanOrEqual(50);
  });
  it("a line stands where it is clearly above the noise, and noise alone makes none stand", () => {
    let [heard, madeUp] = [0, 0];
    const runs = 30;
    for (let seed = 0; seed < runs; seed++) {
      // noise of 0.02: 0.0018 rms fall into a line's seven bins of 0.49 Hz and its window; the fourth is 6 dB above that
      const { lines } = play(new Hum(4000), made(4000, 12, hummed(60, { 2: 0.02, 4: 0.0025 }), 0.02, seed)).told;
      if (lines[3].stands) heard++;
      madeUp += lines.filter((l) => l.order > 4 && l.stands).length;
    }
    expect(heard).toBeGreaterThan(0.9 * runs);
    // of 240 places
    expect(madeUp).toBeLessThan(3);
  });
  it("noise has none, and what a line may hide under it is above the truth", () => {
    for (const seed of [1, 2, 3]) {
      const told = play(
        new Hum(4000),
        made(4000, 12, () => 0, 0.1, seed),
      ).told;
      expect([told.mains, told.allRmsDbfs]).toEqual([undefined, undefined]);
    }
    const told = play(new Hum(4000), made(4000, 12, hummed(60, { 2: 0.01, 4: 0.0001 }), 0.05)).told;
    expect(told.lines[3].rmsDbfs).toBeGreaterThan(rmsDb(0.0001));
  });
  it("a note beside a multiple is no hum", () => {
    const hum = hummed(60, { 1: 0.01, 2: 0.01 });
    const told = play(
      new Hum(4000),
      made(4000, 12, (t) => hum(t) + 0.1 * Math.sin(tau * 181 * t), 0.001),
    ).told;
    expect(told.lines.map((l) => l.stands).slice(0, 3)).toEqual([true, true, false]);
  });
  it("played at a wrong rate shows lines where no mains is, and says so", () => {
    const hum = play(new Hum(44_100), made(44_100, 12, hummed((60 * 44_100) / 48_000, { 1: 0.01, 2: 0.02, 3: 0.005 }), 0.001));
    expect(hum.told.allRmsDbfs).toBeUndefined();
    expect(Math.abs(hum.strangeHz! - 55.125)).toBeLessThan(0.3);
  });
});
