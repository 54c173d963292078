/** Levels in a band, (S+N)/N and SINAD by their definitions, on sounds of known content and through an envelope detector. */
import { describe, expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { BandLevel, During, over, riseSays } from "./noise-level";
import { made, play, tau } from "./waves.testdata";

const rate = 48_000;
const band = { fromHz: 50, toHz: 5000 };
const told = (x: Float64Array, of = band, at = rate) => play(new BandLevel(at, of), x).told;
const db = (p: number): number => 10 * Math.log10(p);
/** White noise of this deviation has so much of its power in a band. */
const inBand = (deviation: number, { fromHz, toHz }: { fromHz: number; toHz: number }): number =>
  (deviation ** 2 * (toHz - fromHz)) / (rate / 2);

describe("level in a band", () => {
  it.each([
    [50, 5000],
    [300, 3000],
    [1000, 1500],
  ])("of white noise is its share, %i to %i Hz", (fromHz, toHz) => {
    const t = told(
      made(rate, 40, () => 0, 0.05, 7),
      { fromHz, toHz },
    );
    expect(Math.abs(t.rmsDbfs - db(inBand(0.05, { fromHz, toHz })))).toBeLessThan(3.5 * t.uDb + 0.01);
    // by band and time: the power of noise is known to 1/sqrt(B T)
    expect(t.uDb / (4.343 / Math.sqrt((toHz - fromHz) * 40))).toBeGreaterThan(0.8);
    expect(t.uDb / (4.343 / Math.sqrt((toHz - fromHz) * 40))).toBeLessThan(1.6);
    expect(t.tone).toBeUndefined();
  });
  it("is known to what it says: somewhat more than it truly scatters by, never less", () => {
    // derived: band powers of frames that overlap by half go together by 3/35 of their scatter, so 0.854 of them count, and the whole of the sound at most;
    // two of three are taken, which is 1.13 to 1.25 times the scatter
    const all = Array.from({ length: 100 }, (_, seed) =>
      told(
        made(12_000, 4, () => 0, 0.05, seed),
        band,
        12_000,
      ),
    );
    const mean = all.reduce((t, x) => t + x.rmsDbfs, 0) / all.length;
    const scatter = Math.sqrt(all.reduce((t, x) => t + (x.rmsDbfs - mean) ** 2, 0) / (all.length - 1));
    const says = all.reduce((t, x) => t + x.uDb, 0) / all.length;
    // the scatter of a hundred is itself known to 7 %
    expect(says / scatter).toBeGreaterThan(1.1);
    expect(says / scatter).toBeLessThan(1.45);
  });
  it("takes a stretch alone", () => {
    const l = new BandLevel(rate, band);
    const x = made(rate, 6, (t) => (t < 2 ? 0.1 : t < 4 ? 0.3 : 0.5) * Math.sin(tau * 700 * t));
    play(new During(l, rate, { fromS: 2, toS: 4 }), x);
    expect(l.told.rmsDbfs).toBeCloseTo(db(0.045), 2);
    expect(l.told.secondsCount).toBeCloseTo(2, 1);
  });
});

describe("SINAD", () => {
  it.each([
    [0.1, 0.02, 0],
    [0.1, 0.002, 0.03],
    [0.03, 0.03, 0.01],
  ])("of a tone of %f in noise of %f with a harmonic of %f is by its definition", (a, noise, harmonic) => {
    const x = made(rate, 30, (t) => a * Math.sin(tau * 1000 * t) + harmonic * Math.sin(tau * 2000 * t), noise, 9);
    const rest = inBand(noise, band) + harmonic ** 2 / 2;
    const { tone } = told(x);
    expect(tone!.hz).toBeCloseTo(1000, 1);
    expect(tone!.rmsDbfs).toBeCloseTo(db(a ** 2 / 2), 1);
    expect(Math.abs(tone!.sinadDb - db((a ** 2 / 2 + rest) / rest))).toBeLessThan(3 * tone!.uDb + 0.02);
    expect(tone!.uDb).toBeLessThan(0.15);
  });
});

describe("SINAD in a narrow band", () => {
  it("counts the noise under the tone's own bins: of 80 Hz they are a fifth, which would be 1 dB", () => {
    const narrow = { fromHz: 960, toHz: 1040 };
    const { tone } = told(
      made(rate, 60, (t) => 0.1 * Math.sin(tau * 1000 * t), 0.2, 4),
      narrow,
    );
    const rest = inBand(0.2, narrow);
    expect(Math.abs(tone!.sinadDb - db((0.005 + rest) / rest))).toBeLessThan(0.6);
  });
});

describe("(S+N)/N", () => {
  it("of a tone in noise is by its definition", () => {
    const on = told(made(rate, 30, (t) => 0.05 * Math.sin(tau * 400 * t), 0.05, 1));
    const off = told(made(rate, 30, () => 0, 0.05, 2));
    const { db: got, uDb } = over(on, off);
    expect(Math.abs(got - db(1 + 0.05 ** 2 / 2 / inBand(0.05, band)))).toBeLessThan(3 * uDb);
    expect(uDb).toBeLessThan(0.05);
  });
  it("through an envelope detector: 10 dB at 30 % modulation is 20.0 dB of carrier to noise", () => {
    // derived: behind an envelope detector well above its threshold S/N = m^2 C/N; a carrier of 1 with noise of 6 kHz about it, in complex baseband
    const seconds = 40;
    const at = 24_000;
    const [re, im] = [0, 1].map((k) => lowPassed(normalStream(20, `noise ${k}`, at * seconds), 3000 / at));
    const power = re.reduce((s, v, i) => s + v * v + im[i] ** 2, 0) / re.length;
    const a = Math.sqrt(0.01 / power);
    const detected = (m: number) =>
      told(
        re.map((v, i) => 0.3 * Math.hypot(1 + m * Math.sin((tau * 1000 * i) / at) + a * v, a * im[i])),
        band,
        at,
      );
    const { db: got, uDb } = over(detected(0.3), detected(0));
    expect(Math.abs(got - 10)).toBeLessThan(0.1);
    expect(uDb).toBeLessThan(0.06);
  });
});

describe("a rise of noise", () => {
  it.each([
    [3.0103, 0, 3.0103],
    [10, 9.542, 0.458],
    [1, -5.868, 6.868],
  ])("of %f dB is external noise %f dB over the set's own, which costs %f dB", (rise, external, loss) => {
    const says = riseSays(rise)!;
    expect(says.externalDb).toBeCloseTo(external, 2);
    expect(says.lossDb).toBeCloseTo(loss, 2);
  });
  it("of nothing says nothing", () => expect(riseSays(0)).toBeUndefined());
});

/** By a windowed sinc of 401 taps. */
function lowPassed(x: Float64Array, edge: number): Float64Array {
  const half = 200;
  const taps = Float64Array.from({ length: 2 * half + 1 }, (_, i) => {
    const n = i - half;
    const sinc = n === 0 ? 2 * edge : Math.sin(tau * edge * n) / (Math.PI * n);
    return sinc * (0.5 + 0.5 * Math.cos((Math.PI * n) / (half + 1)));
  });
  const wide = new Float64Array(x.length + 2 * half);
  wide.set(x, half);
  // the taps are alike about their middle: one product for two samples
  return x.map((_, i) => {
    const at = i + half;
    let sum = taps[half] * wide[at];
    for (let k = 1; k <= half; k++) sum += taps[half + k] * (wide[at - k] + wide[at + k]);
    return sum;
  });
}
