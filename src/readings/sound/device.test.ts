/** A sound device's response undone: what it took off is put back where it took it, with what that is known to. */
import { describe, expect, it } from "vitest";
import { undone } from "./device";
import { Hum } from "./hum";
import { BandLevel, over } from "./noise-level";
import type { ResponsePoint } from "./response";
import { made, play, tau } from "./waves.testdata";

const rate = 12_000;
const cutHz = 150;
/** A first-order high-pass as a sound device's coupling capacitor is one: |H|² = f²/(f² + fc²), textbook; exact for the bilinear transform at its warped frequencies. */
const pole = Math.tan((Math.PI * cutHz) / rate);
function highPass(x: Float64Array): Float64Array {
  let [last, y] = [0, 0];
  return x.map((v) => {
    y = ((1 - pole) * y + v - last) / (1 + pole);
    last = v;
    return y;
  });
}
const device = (uDb: number): readonly ResponsePoint[] =>
  Array.from({ length: 200 }, (_, i) => {
    const hz = 40 * 1.0245 ** i;
    const f = Math.tan((Math.PI * Math.min(hz, 5900)) / rate);
    return { hz, levelDb: 10 * Math.log10((f * f) / (f * f + pole * pole)), uDb };
  });
const hummed = made(rate, 12, (t) => 0.02 * Math.sin(tau * 60 * t) + 0.01 * Math.sin(tau * 120 * t), 0.001);

describe("a sound device's response", () => {
  it("is between its points a straight line, and beyond them that of the nearest", () => {
    const two = [
      { hz: 100, levelDb: -6, uDb: 0.6 },
      { hz: 400, levelDb: 0, uDb: 0 },
    ];
    expect([50, 100, 200, 400, 900].map((f) => 10 * Math.log10(undone(two, f).times))).toEqual(
      [6, 6, 3, 0, 0].map((v) => expect.closeTo(v, 9)),
    );
    expect([undone(two, 50).uDb, undone(undefined, 50)]).toEqual([0.6, { times: 1, uDb: 0 }]);
  });
  it("is put back on each line of a hum, and is in its interval", () => {
    const known = play(new Hum(rate, { device: device(0.4) }), highPass(hummed)).told;
    const raw = play(new Hum(rate), highPass(hummed)).told;
    for (const [order, amplitude] of [
      [1, 0.02],
      [2, 0.01],
    ]) {
      const line = known.lines[order - 1];
      expect(Math.abs(line.rmsDbfs - 20 * Math.log10(amplitude / Math.SQRT2))).toBeLessThan(0.05);
      expect(line.uDb).toBeGreaterThan(0.4);
      expect(line.uDb).toBeLessThan(0.42);
    }
    // untouched, 60 Hz is 8.6 dB low: 10 log(1 + (150/60)²)
    expect(raw.lines[0].rmsDbfs).toBeCloseTo(20 * Math.log10(0.02 / Math.SQRT2) - 10 * Math.log10(1 + 2.5 ** 2), 0);
    const whole = play(new Hum(rate), hummed).told.soundRmsDbfs;
    expect(Math.abs(known.soundRmsDbfs - whole)).toBeLessThan(0.1);
  });
  it("is put back on full output, whatever its pitch, with what it is known to", () => {
    // Source: scipy 1.17.1, butter(2, 300, "highpass", fs=12000), its lfilter on 0.5 at 400 Hz and 0.2 at 100 Hz, rms from the second second on
    const b = [0.8948586061225731, -1.7897172122451461, 0.8948586061225731];
    const a = [1.0, -1.7786317778245846, 0.8008026466657073];
    const [before, after] = [-8.3863, -10.2071];
    const past = [0, 0, 0, 0];
    const filtered = made(rate, 12, (t) => 0.5 * Math.sin(tau * 400 * t) + 0.2 * Math.sin(tau * 100 * t)).map((v) => {
      const y = b[0] * v + b[1] * past[0] + b[2] * past[1] - a[1] * past[2] - a[2] * past[3];
      past.splice(0, 4, v, past[0], y, past[2]);
      return y;
    });
    const power = (c: readonly number[], w: number): number =>
      (c[0] + c[1] * Math.cos(w) + c[2] * Math.cos(2 * w)) ** 2 + (c[1] * Math.sin(w) + c[2] * Math.sin(2 * w)) ** 2;
    const points = Array.from({ length: 400 }, (_, i) => {
      const hz = 20 * 1.0141 ** i;
      const w = (tau * hz) / rate;
      return { hz, levelDb: 10 * Math.log10(power(b, w) / power(a, w)), uDb: 0.3 };
    });
    const known = play(new Hum(rate, { device: points }), filtered).told.whole;
    expect(Math.abs((known?.rmsDbfs ?? 0) - before)).toBeLessThan(0.1);
    expect(known?.uDb).toBeCloseTo(0.3, 1);
    const raw = play(new BandLevel(rate, { fromHz: 20, toHz: 5000 }), filtered).told.rmsDbfs;
    expect(Math.abs(raw - after)).toBeLessThan(0.1);
    expect(play(new Hum(rate), filtered).told.whole).toBeUndefined();
  });
  it("is put back on noise, and what it is off by is no part of a ratio of two like sounds", () => {
    const band = { fromHz: 50, toHz: 3000 };
    const hiss = (seed: number, a: number) => made(rate, 30, () => 0, a, seed);
    const known = (x: Float64Array) => play(new BandLevel(rate, band, device(1)), highPass(x)).told;
    const [loud, soft] = [known(hiss(1, 0.1)), known(hiss(2, 0.05))];
    const flat = play(new BandLevel(rate, band), hiss(1, 0.1)).told;
    expect(Math.abs(loud.rmsDbfs - flat.rmsDbfs)).toBeLessThan(0.05);
    expect(loud.deviceUDb).toBeCloseTo(1, 6);
    expect(loud.uDb).toBeGreaterThan(1);
    const ratio = over(loud, soft);
    expect(Math.abs(ratio.db - 20 * Math.log10(2))).toBeLessThan(3 * ratio.uDb);
    expect(ratio.uDb).toBeLessThan(0.1);
  });
  it("counts in SINAD by what it is off at the tone against the rest", () => {
    const toned = made(rate, 30, (t) => 0.1 * Math.sin(tau * 1000 * t), 0.01);
    const sinad = (d?: readonly ResponsePoint[]) => play(new BandLevel(rate, { fromHz: 50, toHz: 5000 }, d), toned).told.tone!;
    const tilted = device(0).map((p) => ({ ...p, levelDb: 0, uDb: p.hz < 900 || p.hz > 1100 ? 0.5 : 0 }));
    expect(sinad(device(1).map((p) => ({ ...p, levelDb: 0 }))).uDb).toBeCloseTo(sinad().uDb, 3);
    expect(sinad(tilted).uDb).toBeGreaterThan(0.45);
    expect(sinad(tilted).uDb).toBeLessThan(0.55);
  });
});
