/**
 * The follower against the Cramér-Rao bound (Kay, Fundamentals of Statistical Signal Processing 1, 1993, eq. 3.41, from memory), and against figures computed
 * apart from this code by scipy on recordings by others (REFERENCE.json beside them).
 */
import { describe, expect, it } from "vitest";
import { orThrow } from "../../units/issue";
import { bytesOf, here, reference } from "../shared-readings.testdata";
import { readWav } from "../wav";
import { highestHz, Note } from "./note";
import { made, play, tau } from "./waves.testdata";

const range = { fromHz: 20, toHz: highestHz };
/** Standard deviation that no unbiased reading of a sine in white noise is below, Hz. */
const boundHz = (rate: number, seconds: number, amplitude: number, noise: number): number => {
  const n = rate * seconds;
  return (rate / tau) * Math.sqrt((24 * noise ** 2) / (amplitude ** 2 * n * (n * n - 1)));
};
const rms = (x: readonly number[]): number => Math.sqrt(x.reduce((s, v) => s + v * v, 0) / x.length);
/** Largest ratio of a reading's scatter to the bound of the sound that it rests on. Derived in docs/ear.md. */
const factor = 1.75;

describe("readings of a steady tone", () => {
  // tones apart from the bins, quiet and loud; 240 readings tell a scatter to 5 %, so 2.5 of those are room enough
  it.each([
    [433.27, 0.3, 0.003],
    [1000.5, 0.1, 0.1],
    [2711.9, 0.02, 0.05],
  ])("%f Hz of %f in noise of %f scatter at most 1.75 times the bound, and by what they say", (hz, amplitude, noise) => {
    const rate = 8000;
    const x = made(rate, 244, (t) => amplitude * Math.sin(tau * hz * t), noise, 5);
    const { frameS, tone } = play(new Note(rate, { everyS: 1, range }), x).told;
    const off = tone!.readings.map((r) => r.hz - hz);
    const bound = boundHz(rate, frameS + 1, amplitude, noise);
    expect(off.length).toBeGreaterThan(235);
    expect(rms(off) / bound).toBeLessThan(factor * 1.12);
    expect(rms(off) / bound).toBeGreaterThan(1);
    const z = rms(tone!.readings.map((r) => (r.hz - hz) / r.uHz));
    expect(z).toBeGreaterThan(0.85);
    expect(z).toBeLessThan(1.15);
    expect(tone!.events.map((e) => e.kind)).toEqual(["found"]);
    expect(tone!.steady).toBe(true);
  });
  it("their mean comes near the bound of the whole stretch, and holds the truth", () => {
    const rate = 8000;
    const z = Array.from({ length: 24 }, (_, seed) => {
      const { tone } = play(
        new Note(rate, { everyS: 0.5, range }),
        made(rate, 12, (t) => 0.1 * Math.sin(tau * 777.7 * t), 0.1, seed),
      ).told;
      return [(tone!.meanHz - 777.7) / tone!.uHz, (tone!.meanHz - 777.7) / boundHz(rate, 12, 0.1, 0.1)];
    });
    expect(z.filter(([own]) => Math.abs(own) > 1.96).length).toBeLessThanOrEqual(4);
    // phases at two ends alone: three halves of a frame's noise each; the bound weighs every sample
    expect(rms(z.map(([, b]) => b))).toBeLessThan(4);
  });
  it("at 48 kHz, 44.1 kHz and 400 Hz the same tone is the same", () => {
    for (const rate of [48_000, 44_100, 400]) {
      const { tone } = play(
        new Note(rate, { everyS: 1, range }),
        made(rate, 12, (t) => 0.2 * Math.sin(tau * 123.456 * t)),
      ).told;
      expect(Math.abs(tone!.meanHz - 123.456)).toBeLessThan(1e-6);
      expect(tone!.meanPeakDbfs).toBeCloseTo(20 * Math.log10(0.2), 1);
    }
  });
});

describe.runIf(here("receiver-audio/wwv1.wav", "mains-50Hz/003_ref.wav"))("recordings by others, against scipy", () => {
  type Json = Record<string, Record<string, Record<string, Record<string, Record<string, number>>>>>;
  const ref = reference as unknown as Json;
  const heard = (file: string, everyS: number, fromHz = 20, toHz = highestHz) => {
    const w = orThrow(readWav(bytesOf(file), file));
    return play(new Note(w.sampleRateHz, { everyS, range: { fromHz, toHz } }), w.samples(0, 0, w.samplesCount)).told.tone!;
  };
  it("mains of eleven minutes: mean by phase within 0.0001 Hz, first to last as by frames", () => {
    const want = ref.mains_50Hz_track.files["003_ref.wav"] as unknown as Record<string, number>;
    const tone = heard("mains-50Hz/003_ref.wav", 4, 45, 55);
    expect(Math.abs(tone.meanHz - want.mean_Hz_by_phase)).toBeLessThan(1e-4);
    // 16 s frames there, 4 s here: the wander within a frame is what they differ by
    expect(Math.abs(tone.lowHz - want.min_Hz)).toBeLessThan(0.005);
    expect(Math.abs(tone.highHz - want.max_Hz)).toBeLessThan(0.005);
    expect(tone.events.map((e) => e.kind)).toEqual(["found"]);
  });
  it("a standard-frequency station's 500 Hz, by a receiver 4 Hz off", () => {
    const want = ref.standard_frequency_receiver_audio.files["wwv1.wav"]["500 Hz tone"] as unknown as Record<string, number>;
    const tone = heard("receiver-audio/wwv1.wav", 0.12, 450, 550);
    expect(Math.abs(tone.meanHz - want.measured_Hz_median_of_frames_within_6dB)).toBeLessThan(0.02);
  });
  it.each([
    ["flac1.wav", "FL", 1, 700],
    ["krch-am.wav", "KR", 0, 20],
  ])("a calling tone of %s for as long as it lasts, and then it is said to be lost", (file, code, i, fromHz) => {
    const calls = ref.two_tone_beat_offsets.files[file] as unknown as Record<string, { tones: readonly Record<string, number>[] }>;
    const tone = heard(`receiver-audio/${file}`, 0.1, fromHz);
    const loud = tone.readings.filter((r) => r.peakDbfs > tone.readings[1].peakDbfs - 3).map((r) => r.hz);
    const mean = loud.reduce((s, v) => s + v, 0) / loud.length;
    expect(Math.abs(mean - calls[code].tones[i].measured_Hz)).toBeLessThan(0.05);
    expect(tone.events.map((e) => e.kind)).toContain("lost");
  });
});

it("a mean over a stretch is known to what it says, by how means of many sounds scatter", () => {
  const means = Array.from({ length: 40 }, (_, seed) => {
    const note = new Note(8000, { everyS: 0.5, range: { fromHz: 500, toHz: 1500 } });
    const { tone } = play(
      note,
      made(8000, 8, (t) => 0.05 * Math.sin(tau * 1000.3 * t), 0.05, seed),
    ).told;
    return tone!;
  });
  const mean = means.reduce((s, m) => s + m.meanHz, 0) / means.length;
  const scatter = Math.sqrt(means.reduce((s, m) => s + (m.meanHz - mean) ** 2, 0) / (means.length - 1));
  const says = means.reduce((s, m) => s + m.uHz, 0) / means.length;
  // the scatter of forty is itself known to 11 %
  expect(says / scatter).toBeGreaterThan(0.78);
  expect(says / scatter).toBeLessThan(1.25);
});
