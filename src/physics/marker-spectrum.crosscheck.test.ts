/** Second implementation: figures worked out apart from this code. */
import { describe, expect, it } from "vitest";
import { couplingRatio, harmonicPeakV } from "./marker-spectrum";

describe("harmonics of a marker's waveform", () => {
  // levels in uV rms at the terminal
  it.each([
    [0.37, 20e-9, 17, 178.4193],
    [0.37, 20e-9, 71, 163.6363],
    [0.5, 20e-9, 35, 224.2812],
    [0.37, 100e-9, 211, 2.454222],
    [0.003, 8e-9, 140, 212.0597],
  ])("second implementation: duty %f, edge %f, n %i", (dutyRatio, edge, n, uv) => {
    const wave = { amplitudeV: 5, repetitionHz: 100e3, dutyRatio, riseS: edge, fallS: edge };
    const path = { sourceOhm: 100, couplingF: 2e-12, antennaOhm: 100, inputOhm: 400, inputF: 20e-12 };
    const level = (harmonicPeakV(wave, n) / Math.SQRT2) * couplingRatio(n * 100e3, path) * 1e6;
    expect(Math.abs(level / uv - 1)).toBeLessThan(1e-4);
  });
});
