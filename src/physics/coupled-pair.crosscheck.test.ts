/** Second implementation: figures worked out apart from this code. */
import { describe, expect, it } from "vitest";
import { fastestSweepHzPerS, humpSpacingHz, loadingOhm, pairFromHumps, pairWidthHz, valleyDb } from "./coupled-pair";

it.each([
  // a second implementation, levels from the humps: a, peak at y, trough, width at 6 dB
  [1.2, 0.6633, 0.144, 2.141],
  [1.5, 1.118, 0.695, 2.5357],
  [2, 1.7321, 1.938, 3.1474],
  [3, 2.8284, 4.437, 4.2848],
])("a = %f", (a, peak, trough, y6) => {
  expect(humpSpacingHz(a, 100, 455e3) / 4550).toBeCloseTo(peak, 4);
  expect(valleyDb(a)).toBeCloseTo(trough, 3);
  expect(Math.abs(pairWidthHz(a, 100, 455e3, 6) / 4550 / y6 - 1)).toBeLessThan(2e-4);
});

describe("humps 7.2 kHz apart with 1.6 dB between (an invented scenario, worked out apart from this code)", () => {
  const { a, q, k } = pairFromHumps(7200, 1.6, 455e3);
  it("are a = 1.87, Q 99.8, k 0.0187, 13.6 kHz wide at -6 dB", () => {
    expect(a).toBeCloseTo(1.87, 2);
    expect(q).toBeCloseTo(99.8, 1);
    expect(k).toBeCloseTo(0.0187, 4);
    expect(pairWidthHz(a, q, 455e3, 6) / 1e3).toBeCloseTo(13.6, 1);
  });
  it("97 kohm across one winding of 120 pF brings it to a quarter of its Q, and the pair under critical", () => {
    expect(loadingOhm(q, 120e-12, 455e3, 0.25) / 1e3).toBeCloseTo(97, 0);
    expect(k * Math.sqrt((q * q) / 4)).toBeCloseTo(0.93, 2);
  });
});

it("8 kHz may be swept at 16 MHz a second, 300 Hz at 22.5 kHz a second: a crystal never at 60 sweeps of 30 kHz", () => {
  expect(fastestSweepHzPerS(8000)).toBe(16e6);
  expect(fastestSweepHzPerS(300)).toBe(22500);
  expect(2 * 60 * 30e3).toBeGreaterThan(fastestSweepHzPerS(300));
  expect(2 * 60 * 30e3).toBeLessThan(fastestSweepHzPerS(8000));
});
