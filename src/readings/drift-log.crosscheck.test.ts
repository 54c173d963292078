import { describe, expect, it } from "vitest";
import { fitDrift } from "../infer/drift/fit";
import { tellWarmUp } from "../infer/drift/tell-warm-up";
import { settledAfterS, speedHzPerS, toComeHz, type WarmUp } from "../infer/drift/warm-up";
import { normalStream } from "../numerics/random";
import { orThrow } from "../units/issue";

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
    expect(f.misfit.verdict).toBe("ok");
  });
  it.each([
    [20, "open"],
    [30, "open"],
    [90, undefined],
  ])("a log of %i minutes with 20 Hz of noise has its end %s", (minutes, noEnd) => {
    const says = [1, 2, 3].map((seed) => tellWarmUp(log(minutes, 20, seed)).noEnd);
    // the second implementation's end values scatter by 15.8 kHz after 20 min, 4.3 kHz after 30, 185 Hz after 60, 39 Hz after 90
    expect(says.filter((s) => s === noEnd).length).toBeGreaterThanOrEqual(2);
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
  expect(f.steady).toBe(true);
});
it("laws: what is left falls to nothing, the speed is its derivative, and settled means slower from there on", () => {
  const w: WarmUp = {
    endHz: base,
    parts: [
      { hz: -900, tauS: 300, power: 1 },
      { hz: 2000, tauS: 3000, power: 0.7 },
    ],
  };
  expect(toComeHz(w, 0)).toBe(1100);
  expect(Math.abs(toComeHz(w, 1e6))).toBeLessThan(1e-9);
  const tail: WarmUp = { endHz: 0, parts: [{ hz: 2000, tauS: 900, power: 1.3, tail: true }] };
  for (const v of [w, tail]) expect(speedHzPerS(v, 600)).toBeCloseTo((toComeHz(v, 601) - toComeHz(v, 599)) / 2, 5);
  const t = settledAfterS(w, 0.1, 0);
  for (let k = 1; k < 40; k++) expect(Math.abs(speedHzPerS(w, t * (1 + k / 10)))).toBeLessThanOrEqual(0.1);
  expect(Math.abs(speedHzPerS(w, t * 0.999))).toBeGreaterThan(0.1);
  expect(settledAfterS(w, 1e3, 60)).toBe(60);
});
it.each([
  [[0, 60, 50, 180, 240, 300, 360, 420], "log row 3", "time-runs-back"],
  [[0, 60], "log", "too-few"],
])("refuses a log that is none: %j", (times, path, code) => {
  const r = fitDrift({ timeS: Float64Array.from(times), hz: Float64Array.from(times, () => 1e6) });
  expect(r.ok ? [] : r.issues.map((i) => [i.path, i.code])).toEqual([[path, code]]);
});
