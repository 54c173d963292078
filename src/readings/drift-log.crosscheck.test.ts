import { describe, expect, it } from "vitest";
import { normalStream } from "../numerics/random";
import { orThrow } from "../units/issue";
import { type DriftFit, fitDrift, leftHz, rateHzPerS, settledAfterS } from "./drift-log";

const min = 60;
const base = 7e6;
/** The second implementation's warm-up: 1500 Hz in 6 min and 3200 Hz in 45 min, readings each minute. */
function log(minutes: number, noiseHz: number, seed: number) {
  const noise = normalStream(seed, "drift", minutes + 1);
  const timeS = Float64Array.from({ length: minutes + 1 }, (_, i) => i * min);
  const hz = timeS.map((t, i) => base - 2100 + 1500 * Math.exp(-t / (6 * min)) + 3200 * Math.exp(-t / (45 * min)) + noiseHz * noise[i]);
  return { timeS, hz };
}
describe("a warm-up of two time constants", () => {
  it("without noise is found to 1 part in 10,000 (a second implementation's tolerance)", () => {
    const f = orThrow(fitDrift(log(90, 0, 1)));
    const near = (got: number, wanted: number): void => expect(Math.abs(got / wanted - 1)).toBeLessThan(1e-4);
    near(f.endHz - base, -2100);
    near(f.amplitudesHz[0], 1500);
    near(f.amplitudesHz[1], 3200);
    near(f.tauS[0], 6 * min);
    near(f.tauS[1], 45 * min);
    expect(f.tooShort).toBe(false);
  });
  it.each([
    [20, true],
    [30, true],
    [60, false],
    [90, false],
  ])("a log of %i minutes with 20 Hz of noise is too short: %s", (minutes, short) => {
    const says = [1, 2, 3, 4, 5, 6, 7].map((seed) => orThrow(fitDrift(log(minutes, 20, seed))).tooShort);
    // the second implementation's end values scatter by 15.8 kHz after 20 min, 4.3 kHz after 30, 185 Hz after 60, 39 Hz after 90
    expect(says.filter((s) => s === short).length).toBeGreaterThanOrEqual(6);
  });
  it("knows how well it knows the end: on 40 logs of 60 minutes its doubt is that of the scatter", () => {
    const z = Array.from({ length: 40 }, (_, seed) => {
      const f = orThrow(fitDrift(log(60, 20, seed + 10)));
      return (f.endHz - base + 2100) / Math.sqrt(f.covariance[0]);
    });
    const rms = Math.sqrt(z.reduce((s, v) => s + v * v, 0) / z.length);
    expect(rms).toBeGreaterThan(0.6);
    expect(rms).toBeLessThan(1.6);
  });
});
it("takes one time constant where there is one, and tells heat from line", () => {
  const n = 61;
  const timeS = Float64Array.from({ length: n }, (_, i) => i * min);
  const lineV = timeS.map((_, i) => 230 + (i % 20 < 10 ? 6 : -6));
  const noise = normalStream(3, "line", n);
  const hz = timeS.map((t, i) => base + 800 * Math.exp(-t / (12 * min)) + 15 * (lineV[i] - 230) + 3 * noise[i]);
  const f = orThrow(fitDrift({ timeS, hz, lineV }));
  expect(f.tauS).toHaveLength(1);
  expect(Math.abs(f.tauS[0] / (12 * min) - 1)).toBeLessThan(0.03);
  expect(Math.abs(f.lineHzPerV! - 15)).toBeLessThan(0.3);
  expect(orThrow(fitDrift({ timeS, hz })).lineHzPerV).toBeUndefined();
});
it("does not tell heat from a line that moved along with the warm-up, and calls a steady set steady", () => {
  const timeS = Float64Array.from({ length: 61 }, (_, i) => 2 * i * min);
  const lineV = timeS.map((t) => 115 + 5 * Math.exp(-t / (30 * min)));
  const hz = timeS.map((t, i) => base + 2000 * Math.exp(-t / (32 * min)) + 25 * (lineV[i] - 117) + Math.sin(i * 2.3));
  expect(orThrow(fitDrift({ timeS, hz, lineV })).lineHzPerV).toBeUndefined();
  const noise = normalStream(8, "steady", 61);
  const f = orThrow(fitDrift({ timeS, hz: timeS.map((_, i) => base + noise[i]) }));
  expect(f).toMatchObject({ steady: true, tooShort: false });
  expect(leftHz(f, 0)).toBe(0);
});
it("laws: what is left falls to nothing, the slope is its derivative, and settled means slower from there on", () => {
  const f: Pick<DriftFit, "amplitudesHz" | "tauS"> = { amplitudesHz: [-900, 2000], tauS: [300, 3000] };
  expect(leftHz(f, 0)).toBe(1100);
  expect(Math.abs(leftHz(f, 1e6))).toBeLessThan(1e-9);
  const d = (leftHz(f, 601) - leftHz(f, 599)) / 2;
  expect(rateHzPerS(f, 600)).toBeCloseTo(d, 5);
  const t = settledAfterS(f, 0.1);
  for (let k = 1; k < 40; k++) expect(Math.abs(rateHzPerS(f, t * (1 + k / 10)))).toBeLessThanOrEqual(0.1);
  expect(Math.abs(rateHzPerS(f, t * 0.999))).toBeGreaterThan(0.1);
});
it.each([
  [[0, 60, 50, 180, 240, 300, 360, 420], "log row 3", "time-runs-back"],
  [[0, 60], "log", "too-few"],
])("refuses a log that is none: %j", (times, path, code) => {
  const r = fitDrift({ timeS: Float64Array.from(times), hz: Float64Array.from(times, () => 1e6) });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
