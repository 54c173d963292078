import { describe, expect, it } from "vitest";
import { spectrumOf, strongestTone } from "./spectrum";

const rateHz = 100;
const sine = (hz: number): Float64Array => Float64Array.from({ length: 400 }, (_, i) => 0.3 * Math.sin((2 * Math.PI * hz * i) / rateHz));

describe("the strongest tone of a range", () => {
  it("is the one that is there, between bins as well", () => {
    for (const hz of [10, 10.07, 10.12, 23.456]) {
      const tone = strongestTone(spectrumOf(sine(hz), rateHz, 4), 5, 40);
      expect(Math.abs(tone.hz - hz)).toBeLessThan(0.002);
      expect(Math.abs(tone.peakDbfs - 20 * Math.log10(0.3))).toBeLessThan(0.05);
    }
  });
  it("lies within half a bin of the range, where the range ends on the flank of another tone", () => {
    for (let hz = 4; hz < 14; hz += 0.037) {
      const s = spectrumOf(sine(hz), rateHz, 4);
      const tone = strongestTone(s, 14, 30);
      expect(tone.hz).toBeGreaterThanOrEqual(14 - 0.5 * s.binHz);
      expect(tone.hz).toBeLessThanOrEqual(30 + 0.5 * s.binHz);
      // a flank is no higher than what it is the flank of
      expect(tone.peakDbfs).toBeLessThan(20 * Math.log10(0.3) + 1);
    }
  });
});
