/**
 * Audio response against scipy 1.17.1 (bench/response.py): Welch's method on the same noise, number by number, and freqz for what the chain truly passes.
 * Tolerances: the same estimate to rounding; the truth within the chi-square interval of Welch's method (Welch 1967), with four deviations for seven points.
 */
import { describe, expect, it } from "vitest";
import { endsAt, levelAt, noisePoints } from "./response";
import { play } from "./waves.testdata";
import { Welch } from "./welch";

const rate = 12_000;
const count = 240_000;
/** A chain's difference equation, as scipy.signal.butter(1, [250, 2500], "bandpass", fs=12000) gives it. */
const [b0, b2] = [0.400543816310171, -0.400543816310171];
const [a1, a2] = [-1.0840925875555631, 0.19891236737965798];
function chain(x: Float64Array): Float64Array {
  const y = new Float64Array(x.length);
  for (let i = 0; i < x.length; i++) y[i] = b0 * x[i] + b2 * (x[i - 2] ?? 0) - a1 * (y[i - 1] ?? 0) - a2 * (y[i - 2] ?? 0);
  return y;
}
let state = 1;
const noise = Float64Array.from({ length: count }, () => {
  state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
  return state / 2 ** 31 - 1;
});
const spectrum = play(new Welch(rate, 12), chain(noise)).told;
const bins = [12, 25, 50, 100, 200, 300, 400];
const welchDb = [-6.18968, -2.18821, -0.05713, 0, -2.37793, -6.14292, -12.0028];
const freqzDb = [-6.3979, -2.03144, -0.0347, 0, -2.36971, -6.12612, -12.00092];

describe("noise through an audio chain", () => {
  it("has scipy's estimate in every bin", () => {
    expect(spectrum.binHz).toBe(rate / 1024);
    for (const [i, k] of bins.entries()) expect(10 * Math.log10(spectrum.power[k] / spectrum.power[100])).toBeCloseTo(welchDb[i], 4);
  });
  it("is freqz's response within the interval of Welch's method", () => {
    const { points, tonesHz } = noisePoints(spectrum, { fromHz: 100, toHz: 5000 }, { perOctave: 6 });
    expect(tonesHz).toEqual([]);
    const top = levelAt(points, (100 * rate) / 1024)!;
    for (const [i, k] of bins.entries()) {
      const p = levelAt(points, (k * rate) / 1024)!;
      expect(p.uDb).toBeLessThan(0.5);
      // a band is as wide as a sixth of an octave: on these slopes the straight line through two of them is off by less than a tenth of a dB
      expect(Math.abs(p.levelDb - top.levelDb - freqzDb[i])).toBeLessThan(4 * Math.hypot(p.uDb, top.uDb) + 0.1);
    }
  });
  it("is 3 dB down where the chain is, within three deviations", () => {
    const { points } = noisePoints(spectrum, { fromHz: 60, toHz: 5000 }, { perOctave: 6 });
    const { low, high } = endsAt(points, 3.0103);
    expect(Math.abs(low!.hz - 250)).toBeLessThan(3 * low!.uHz);
    expect(Math.abs(high!.hz - 2500)).toBeLessThan(3 * high!.uHz);
    expect(low!.uHz).toBeLessThan(40);
    expect(high!.uHz).toBeLessThan(250);
  });
});
