/** Responses of known content: coverage of intervals, what is divided out, the far sideband, a loop-back, and noise through an envelope detector. */
import { describe, expect, it } from "vitest";
import { normalStream } from "../../numerics/random";
import { besideBfo, divided, endsAt, freedomOf, fromTop, inputOf, noisePoints, type ResponsePoint, welchInterval } from "./response";
import { made, play, tau } from "./waves.testdata";
import { Welch } from "./welch";

const rate = 12_000;
const spectrumOf = (x: Float64Array, resolutionHz = 12) => play(new Welch(rate, resolutionHz), x).told;
const flat = (from: number, to: number, step: number, level = (_: number) => 0, uDb = 0.1): ResponsePoint[] =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => ({ hz: from + i * step, levelDb: level(from + i * step), uDb }));

describe("the interval of Welch's method", () => {
  it("of white noise holds the true power as often as it says, for one bin and for bins together", () => {
    for (const everyHz of [1, 120]) {
      let [inside, all] = [0, 0];
      for (let seed = 1; seed <= 8; seed++) {
        const s = spectrumOf(made(rate, 8, () => 0, 0.1, seed));
        const { points } = noisePoints(s, { fromHz: 300, toHz: 5000 }, { everyHz });
        const bins = Math.max(1, Math.round(everyHz / s.binHz));
        const { lowDb, highDb } = welchInterval(freedomOf(s.freedom, bins));
        // white noise of 0.1: variance over the frame's window, by Parseval
        const truth = 10 * Math.log10(0.01 * (3 / 8) * 1024);
        inside += points.filter((p) => truth > p.levelDb + lowDb && truth < p.levelDb + highDb).length;
        all += points.length;
      }
      // of several hundred to thousands of points; bins beside each other go together, so that it scatters a little more
      expect(inside / all).toBeGreaterThan(0.93);
      expect(inside / all).toBeLessThan(0.97);
    }
  });
  it("leaves a tone out, and says where it was", () => {
    const s = spectrumOf(made(rate, 20, (t) => 0.02 * Math.sin(tau * 1200 * t), 0.05, 3));
    const { points, tonesHz } = noisePoints(s, { fromHz: 300, toHz: 4000 }, { everyHz: 60 });
    expect(tonesHz.length).toBe(1);
    expect(Math.abs(tonesHz[0] - 1200)).toBeLessThan(12);
    const levels = points.map((p) => p.levelDb);
    expect(Math.max(...levels) - Math.min(...levels)).toBeLessThan(2.5);
  });
});

describe("ends of a response", () => {
  it("are where it is so far down, outward from its highest, and none where it never is", () => {
    const points = flat(100, 5000, 20, (f) => -10 * Math.log10(1 + (f / 2000) ** 2), 0.05);
    const { low, high } = endsAt(points, 3.0103);
    expect(low).toBeUndefined();
    expect(Math.abs(high!.hz - 2000)).toBeLessThan(15);
    // a slope of 2.17 dB an octave there, 1 dB in 921 Hz: derived
    expect(high!.uHz).toBeGreaterThan(0.05 * 460);
    expect(high!.uHz).toBeLessThan(0.1 * 460 * 1.5);
    expect(endsAt(points, 20)).toEqual({});
  });
});

describe("what a sound came through", () => {
  it("is divided out, and its uncertainty comes in", () => {
    const [d] = divided(
      [{ hz: 1000, levelDb: -7, uDb: 0.3 }],
      flat(500, 2000, 100, (f) => (f / 1000) * -2, 0.4),
    );
    expect(d.levelDb).toBeCloseTo(-5, 9);
    expect(d.uDb).toBeCloseTo(0.5, 9);
    expect(divided([{ hz: 3000, levelDb: 0, uDb: 0.1 }], flat(500, 2000, 100))).toEqual([]);
  });
  it("a loop-back gives the input between none of it and all of it", () => {
    const [p] = inputOf([{ hz: 60, levelDb: -3, uDb: 0.2 }]);
    expect(p.levelDb).toBeCloseTo(-1.5, 9);
    // half-width 1.5 dB rectangular, and half of 0.2 dB
    expect(p.uDb).toBeCloseTo(Math.hypot(1.5 / Math.sqrt(3), 0.1), 9);
  });
});

describe("noise beside a BFO", () => {
  const stood = { bfoHz: 453_500, sideband: "upper" as const, farDownDb: 30 };
  it("stands at BFO plus audio on the upper side, and minus on the lower, ascending", () => {
    const audio = flat(300, 3000, 300);
    expect(besideBfo(audio, stood).map((p) => p.hz)).toEqual(audio.map((p) => 453_500 + p.hz));
    expect(besideBfo(audio, { ...stood, sideband: "lower" }).map((p) => p.hz)).toEqual(audio.map((p) => 453_500 - p.hz).reverse());
  });
  it("leaves out what the far sideband may reach by more than 1 dB, and doubts the rest by what it may add", () => {
    const kept = besideBfo(
      flat(300, 3300, 300, (f) => -f / 100, 0.1),
      stood,
    );
    // 30 dB down: at -20 dB a tenth may be the far one's, 0.46 dB; at -24 dB a quarter, 1.26 dB
    expect(kept.map((p) => p.levelDb)).toEqual([-3, -6, -9, -12, -15, -18, -21]);
    expect(kept.at(-1)!.uDb).toBeCloseTo(Math.hypot(0.1, (-10 * Math.log10(1 - 10 ** -0.9)) / Math.sqrt(3)), 6);
  });
  it("of a known resonance through a known audio chain comes out as that resonance", () => {
    // noise about 455 kHz, in complex baseband, through one pole of 300 Hz to either side; BFO 3 kHz below: audio of 3 kHz is the middle, and the far sideband, 4 kHz off or more, 22 dB down
    const z = normalStream(5, "strip", 2 * rate * 120);
    const n = z.length / 2;
    const [out, audioOnly] = [new Float64Array(n), made(rate, 120, () => 0, 0.3, 6)];
    const pole = Math.exp((-tau * 300) / rate);
    for (let i = 0, re = 0, im = 0; i < n; i++) {
      re = pole * re + (1 - pole) * z[2 * i];
      im = pole * im + (1 - pole) * z[2 * i + 1];
      out[i] = re * Math.cos((tau * 3000 * i) / rate) - im * Math.sin((tau * 3000 * i) / rate);
    }
    const smooth = (x: Float64Array) => {
      let y = 0;
      return x.map((v) => (y += 0.5 * (v - y)));
    };
    const [a, b] = [smooth(out), smooth(audioOnly)].map(
      (x) => noisePoints(spectrumOf(x), { fromHz: 1000, toHz: 5000 }, { everyHz: 100 }).points,
    );
    const strip = besideBfo(fromTop(divided(a, b)), { bfoHz: 452_000, sideband: "upper", farDownDb: 22 });
    for (const p of strip.filter((q) => Math.abs(q.hz - 455_000) < 800)) {
      const turn = (tau * (p.hz - 455_000)) / rate;
      const level = (1 - pole) ** 2 / (1 - 2 * pole * Math.cos(turn) + pole * pole);
      expect(Math.abs(p.levelDb - 10 * Math.log10(level)), `${p.hz}`).toBeLessThan(4 * p.uDb + 0.3);
    }
    expect(strip.length).toBeGreaterThan(15);
  });
});

describe("noise through an envelope detector", () => {
  /** Flat strip of so many hertz, noise with a carrier or alone, detected. */
  const detected = (wide: number, carrier: number) => {
    const n = rate * 25;
    const [re, im] = [0, 1].map((k) => narrowed(normalStream(9, `noise ${k}`, n), wide / 2 / rate));
    return Float64Array.from({ length: n }, (_, i) => 0.1 * Math.hypot(carrier + re[i], im[i]));
  };
  const endOf = (x: Float64Array, downDb: number) =>
    endsAt(noisePoints(spectrumOf(x), { fromHz: 200, toHz: 5500 }, { everyHz: 60 }).points, downDb).high!.hz;
  it("with a carrier is flat to half the strip's width: the better side is down by no more than that", () => {
    expect(Math.abs(endOf(detected(4000, 20), 6) - 2000)).toBeLessThan(120);
  });
  // a linear detector's own products carry the noise on beyond the width at lower levels: 5 kHz at 20 dB down of these 4 kHz
  it("alone reaches at 10 dB down to no more than the strip's width, and to more than half of it", () => {
    const end = endOf(detected(4000, 0), 10);
    expect(end).toBeLessThan(4000);
    expect(end).toBeGreaterThan(2000);
  });
});

/** By a windowed sinc of 401 taps. */
function narrowed(x: Float64Array, edge: number): Float64Array {
  const half = 200;
  const taps = Float64Array.from({ length: 2 * half + 1 }, (_, i) => {
    const k = i - half;
    const sinc = k === 0 ? 2 * edge : Math.sin(tau * edge * k) / (Math.PI * k);
    return sinc * (0.5 + 0.5 * Math.cos((Math.PI * k) / (half + 1)));
  });
  return x.map((_, i) => {
    let sum = 0;
    for (let k = Math.max(0, half - i); k < taps.length && i + k - half < x.length; k++) sum += taps[k] * x[i + k - half];
    return sum;
  });
}
