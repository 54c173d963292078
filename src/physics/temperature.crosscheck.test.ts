import { expect, it } from "vitest";
import { circuitTcf, compensatedTcf, compensatorF, fixedFor } from "./temperature";

const ppm = 1e-6;
const pf = 1e-12;
it.each([
  // a second implementation: frequency, drift, kelvins, whole capacitance, N, capacitor needed
  [3.955e6, -3000, 25, 250, 750, 20.22756],
  [7.5e6, -6000, 25, 120, 470, 16.34043],
  [14.955e6, -15000, 25, 100, 220, 36.47306],
])("%f Hz drifts %f Hz in %f K with %f pF: N%f of %f pF", (f, drift, kelvin, c, n, needed) => {
  expect(compensatorF(drift / f / kelvin, c * pf, n * ppm, 0) / pf).toBeCloseTo(needed, 4);
});
it("-2.1 kHz at an oscillator of 7.655 MHz in 18 K with 180 pF: -15.2 ppm/K, 7.3 pF of N750 for NP0 (an invented scenario, worked out apart from this code)", () => {
  const tcf = -2100 / 7.655e6 / 18;
  expect(tcf / ppm).toBeCloseTo(-15.2, 1);
  expect(compensatorF(tcf, 180 * pf, 750 * ppm, 0) / pf).toBeCloseTo(7.3, 1);
});
it("nulled at 80 pF of gang it is wrong elsewhere: 34.67, 0, -18.46 and -26.82 ppm/K at 15, 80, 200 and 365 pF (a second implementation)", () => {
  const c = { fixedF: 60 * pf, coilPerK: 60 * ppm, fixedPerK: 100 * ppm, gangPerK: 20 * ppm };
  const before = [15, 80, 200, 365].map((g) => circuitTcf(c, g * pf) / ppm);
  for (const [i, v] of [-72, -57.14286, -49.23077, -45.64706].entries()) expect(before[i]).toBeCloseTo(v, 4);
  const needed = compensatorF(circuitTcf(c, 80 * pf), 140 * pf, 750 * ppm, 100 * ppm);
  expect(needed / pf).toBeCloseTo(18.82353, 4);
  const after = [15, 80, 200, 365].map((g) => compensatedTcf(c, g * pf, needed, 750 * ppm) / ppm);
  for (const [i, v] of [34.66667, 0, -18.46154, -26.82353].entries()) expect(after[i]).toBeCloseTo(v, 4);
});
it("laws: the fixed part that explains a coefficient gives it back; a frequency that rises asks for no such capacitor", () => {
  const c = { fixedF: 60 * pf, coilPerK: 60 * ppm, gangPerK: 20 * ppm };
  const fixedPerK = fixedFor(-40 * ppm, c, 100 * pf);
  expect(circuitTcf({ ...c, fixedPerK }, 100 * pf) / ppm).toBeCloseTo(-40, 9);
  expect(compensatorF(10 * ppm, 100 * pf, 750 * ppm, 0)).toBeLessThan(0);
});
