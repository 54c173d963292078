/** Laws and limiting cases. */
import { describe, expect, it } from "vitest";
import { couplingFor, couplingRatio, harmonicPeakV } from "./marker-spectrum";

const square = { amplitudeV: 5, repetitionHz: 100e3, dutyRatio: 0.5, riseS: 0, fallS: 0 };

describe("harmonics of a marker's waveform", () => {
  it("slow edges take the high ones away, never the low ones", () => {
    const slow = { ...square, riseS: 100e-9, fallS: 100e-9 };
    expect(harmonicPeakV(slow, 1) / harmonicPeakV(square, 1)).toBeGreaterThan(0.999);
    expect(harmonicPeakV(slow, 299)).toBeLessThan(0.05 * harmonicPeakV(square, 299));
  });
  it("are the two edges' own series, added as they stand to each other, also where they all but cancel", () => {
    const wave = { ...square, dutyRatio: 0.3, riseS: 20e-9, fallS: 900e-9 };
    const sinc = (x: number): number => Math.sin(Math.PI * x) / (Math.PI * x);
    for (const n of [1, 10, 37, 120, 300]) {
      const [r, f, w] = [sinc(n * 2e-3), sinc(n * 90e-3), 2 * Math.PI * n * 0.3];
      expect(harmonicPeakV(wave, n) / ((5 / (Math.PI * n)) * Math.hypot(r - f * Math.cos(w), f * Math.sin(w)))).toBeCloseTo(1, 9);
    }
  });
});
describe("the coupling for a ratio", () => {
  const path = { sourceOhm: 100, antennaOhm: 100, inputOhm: 400, inputF: 20e-12 };
  it("lets just that through, and there is none for more than a capacitor without end lets through", () => {
    for (const couplingF of [1e-15, 1e-12, 1e-9])
      for (const hz of [1e5, 3e6, 3e7])
        expect(couplingFor(hz, path, couplingRatio(hz, { ...path, couplingF }))! / couplingF).toBeCloseTo(1, 6);
    expect(couplingFor(3e6, path, 1.0001 * couplingRatio(3e6, { ...path, couplingF: Number.MAX_VALUE }))).toBeUndefined();
  });
});
