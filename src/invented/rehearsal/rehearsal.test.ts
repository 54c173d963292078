import { describe, expect, it } from "vitest";
import { heardBandwidthHz, heardNoiseHz, neighbourDownDb, signalToNoiseDb, whistleDownDb } from "./measured";
import { baseband, keying, rehearsalRateHz, type Scene, upperSideband, voice } from "./scene";
import { type DrawnResponse, heard, middleOf, strip } from "./through";

/** A single resonance around 455 kHz, B wide at -3 dB, as an answer would draw it. */
const resonance = (widthHz: number): DrawnResponse => {
  const frequencyHz = Array.from({ length: 801 }, (_, i) => 455e3 - 12e3 + 30 * i);
  return { frequencyHz, levelDb: frequencyHz.map((f) => -10 * Math.log10(1 + ((2 * (f - 455e3)) / widthHz) ** 2)) };
};
const quiet: Scene = {
  kind: "am",
  seconds: 2,
  neighbours: [],
  carriers: [],
  noiseDb: 90,
  crashes: { perSecond: 0, levelDb: 0 },
  fadingDb: 0,
  speed: 20,
};

describe("what is heard through a single resonance", () => {
  const r = resonance(3000);
  const passes = strip(r, middleOf(r));
  it("stands in its middle", () => expect(middleOf(r)).toBeCloseTo(455e3, -1));
  it("has AM audio to half its width, 3 dB down: |H| at B/2 is 1/sqrt 2 by definition", () => {
    expect(heardBandwidthHz(passes)).toBeGreaterThan(1500 * 0.98);
    expect(heardBandwidthHz(passes)).toBeLessThan(1500 * 1.02);
  });
  it("has its noise bandwidth, pi/2 B as textbooks have it, less the skirts beyond 12 kHz", () => {
    const whole = (Math.PI / 2) * 3000;
    const beyond = 3000 * (Math.PI / 2 - Math.atan(24_000 / 3000));
    expect(heardNoiseHz(passes) / (whole - beyond)).toBeGreaterThan(0.97);
    expect(heardNoiseHz(passes) / (whole - beyond)).toBeLessThan(1.03);
  });
  it("has a whistle down by the resonance's own skirt: 10 log(1 + (2 f / B)^2)", () => {
    expect(whistleDownDb(passes, 5000)).toBeCloseTo(10 * Math.log10(1 + (10_000 / 3000) ** 2), 1);
    expect(whistleDownDb(passes, -2000)).toBeCloseTo(10 * Math.log10(1 + (4000 / 3000) ** 2), 1);
  });
  it("has another station down by its three lines on the skirt: carrier and both sidebands beside the wanted carrier, each tone's power its square over 2", () => {
    const h = (f: number): number => 1 / (1 + ((2 * f) / 3000) ** 2);
    const [offHz, levelDb] = [5000, -40];
    const other = 10 ** (levelDb / 10) * (h(offHz) + 0.15 ** 2 * (h(offHz - 400) + h(offHz + 400)));
    const wanted = 0.3 ** 2 * h(400);
    const amplifier = { lowHz: 50, highHz: 5000 };
    expect(neighbourDownDb(passes, { offHz, levelDb }, undefined)).toBeCloseTo(10 * Math.log10(wanted / other), 1);
    expect(neighbourDownDb(passes, { offHz: 9000, levelDb: 0 }, amplifier)).toBeGreaterThan(
      neighbourDownDb(passes, { offHz: 9000, levelDb: 6 }, amplifier) + 5,
    );
  });
  it("has 10 dB of (S+N)/N at 30 % about where the envelope detector's relation says: 20.0 dB of carrier to noise", () => {
    // flat over +-3 kHz: C/N in 6 kHz, audio of 3 kHz; S/N = 2 m^2 C/N / 2 for noise over both sidebands = 0.09 C/N, so 10 dB of (S+N)/N is C/N 100
    const flat: DrawnResponse = {
      frequencyHz: [440e3, 451.95e3, 452e3, 458e3, 458.05e3, 470e3],
      levelDb: [-80, -80, 0, 0, -80, -80],
    };
    expect(signalToNoiseDb(strip(flat, 455e3), 20)).toBeGreaterThan(9.3);
    expect(signalToNoiseDb(strip(flat, 455e3), 20)).toBeLessThan(10.7);
  });
});

describe("what comes in", () => {
  it("is a carrier at 1 with its noise as far down as said, in 6 kHz", () => {
    const z = baseband({ ...quiet, noiseDb: 20, own: new Float64Array(10) });
    let power = 0;
    for (let i = 0; i < z.length; i += 2) power += (z[i] - 1) ** 2 + z[i + 1] ** 2;
    expect(10 * Math.log10((power / (z.length / 2)) * (6000 / rehearsalRateHz))).toBeCloseTo(-20, 0);
  });
  it("is 80 % modulated by what is full scale: each sideband four tenths of the carrier, by definition", () => {
    const own = Float64Array.from({ length: rehearsalRateHz }, (_, i) => Math.cos((2 * Math.PI * 1000 * i) / rehearsalRateHz));
    const z = baseband({ ...quiet, seconds: 1, own });
    for (const [hz, want] of [
      [0, 1],
      [1000, 0.4],
      [-1000, 0.4],
    ]) {
      let [re, im] = [0, 0];
      for (let i = 0; i < rehearsalRateHz; i++) {
        const [c, s] = [Math.cos((2 * Math.PI * hz * i) / rehearsalRateHz), -Math.sin((2 * Math.PI * hz * i) / rehearsalRateHz)];
        re += (z[2 * i] * c - z[2 * i + 1] * s) / rehearsalRateHz;
        im += (z[2 * i] * s + z[2 * i + 1] * c) / rehearsalRateHz;
      }
      expect(Math.hypot(re, im)).toBeCloseTo(want, 3);
    }
  });
  it("keys a dot for 1.2 s over the words a minute", () => {
    const key = keying(24_000, 20, "E");
    expect(key.filter((v) => v > 0.5).length / 24_000).toBeCloseTo(0.06 * Math.ceil(1 / (0.06 * 4)), 1);
  });
  it("as upper sideband has 40 dB less below than above the carrier", () => {
    const z = upperSideband(Float64Array.from({ length: 8000 }, (_, i) => Math.cos((2 * Math.PI * 1000 * i) / rehearsalRateHz)));
    const at = (hz: number) => {
      let [re, im] = [0, 0];
      for (let i = 1000; i < 1000 + 4800; i++) {
        const [c, s] = [Math.cos((2 * Math.PI * hz * i) / rehearsalRateHz), -Math.sin((2 * Math.PI * hz * i) / rehearsalRateHz)];
        re += z[2 * i] * c - z[2 * i + 1] * s;
        im += z[2 * i] * s + z[2 * i + 1] * c;
      }
      return 20 * Math.log10(Math.hypot(re, im));
    };
    expect(at(1000) - at(-1000)).toBeGreaterThan(40);
  });
  it("has the rhythm of a voice, full scale at its top, the same for the same seed", () => {
    const v = voice(48_000, 2);
    expect(v.reduce((m, x) => Math.max(m, Math.abs(x)), 0)).toBeCloseTo(1, 12);
    expect(voice(48_000, 2)).toEqual(v);
    expect(voice(48_000, 3)).not.toEqual(v);
  });
});

describe("AVC and detector", () => {
  it("bring a strong and a weak station to one loudness, and a CW carrier to its pitch", () => {
    const r = resonance(3000);
    const passes = strip(r, 455e3);
    const z = baseband({ ...quiet, kind: "cw", speed: 20 });
    const weak = z.map((v) => v / 100);
    const d = { kind: "cw", pitchHz: 700, avc: { attackS: 0.01, decayS: 0.5 }, audio: undefined } as const;
    const rms = (x: Float64Array) => Math.sqrt(x.reduce((s, v) => s + v * v, 0) / x.length);
    expect(rms(heard(weak, passes, d)) / rms(heard(z, passes, d))).toBeCloseTo(1, 1);
    expect(rms(heard(weak, passes, { ...d, avc: undefined })) / rms(heard(z, passes, { ...d, avc: undefined }))).toBeCloseTo(0.01, 6);
    const x = heard(z, passes, { ...d, avc: undefined });
    const crossings = x.reduce((n, v, i) => n + (i > 0 && x[i - 1] < 0 && v >= 0 && Math.abs(x[i + 5] ?? 0) > 0.3 ? 1 : 0), 0);
    const keyed = keying(x.length, 20).filter((k) => k > 0.95).length / rehearsalRateHz;
    expect(crossings / keyed).toBeGreaterThan(650);
    expect(crossings / keyed).toBeLessThan(770);
  });
});
