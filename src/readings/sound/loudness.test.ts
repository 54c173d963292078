import { describe, expect, it } from "vitest";
import { orThrow } from "../../units/issue";
import { readWav } from "../wav";
import { equallyLoud, loudness } from "./loudness";
import { wavOf } from "./wav-with-card";

const rate = 48_000;
const sine = (hz: number, db: number, seconds = 4) =>
  Float64Array.from({ length: seconds * rate }, (_, i) => 10 ** (db / 20) * Math.sin((2 * Math.PI * hz * i) / rate));

describe("loudness", () => {
  it("of a sine of 997 Hz at full scale in one channel is -3.01 LUFS: ITU-R BS.1770, annex 1 (its sentence read where others quote it, not in the Recommendation)", () => {
    expect(loudness(sine(997, 0), rate)).toBeCloseTo(-3.01, 1);
    expect(loudness(sine(997, -20), rate)).toBeCloseTo(-23.01, 1);
  });
  it("of silence is none", () => expect(loudness(new Float64Array(2 * rate), rate)).toBe(Number.NEGATIVE_INFINITY));
  it("is the same of sounds made equally loud, none of them clipping", () => {
    const [a, b] = equallyLoud([sine(997, -3), sine(150, -30)], rate);
    expect(loudness(a, rate) - loudness(b, rate)).toBeCloseTo(0, 1);
    expect(Math.max(...[a, b].map((x) => x.reduce((m, v) => Math.max(m, Math.abs(v)), 0)))).toBeLessThanOrEqual(0.97);
  });
});
describe("a WAV file that is written", () => {
  it("is read back sample by sample, and carries its card", () => {
    const x = sine(440, -6, 1);
    const file = wavOf([x], rate, "a model");
    const back = orThrow(readWav(file, "x.wav"));
    expect([back.sampleRateHz, back.samplesCount]).toEqual([rate, rate]);
    expect(new TextDecoder("latin1").decode(file.subarray(0, 80))).toContain("ICMT");
    expect(new TextDecoder("latin1").decode(file.subarray(0, 80))).toContain("a model");
  });
});
