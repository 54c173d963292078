/** Laws and limiting cases. */
import { describe, expect, it } from "vitest";
import { harmonicPeakV } from "./marker-spectrum";

const square = { amplitudeV: 5, repetitionHz: 100e3, dutyRatio: 0.5, riseS: 0, fallS: 0 };

describe("harmonics of a marker's waveform", () => {
  it("slow edges take the high ones away, never the low ones", () => {
    const slow = { ...square, riseS: 100e-9, fallS: 100e-9 };
    expect(harmonicPeakV(slow, 1) / harmonicPeakV(square, 1)).toBeGreaterThan(0.999);
    expect(harmonicPeakV(slow, 299)).toBeLessThan(0.05 * harmonicPeakV(square, 299));
  });
});
