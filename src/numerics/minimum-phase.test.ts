import { describe, expect, it } from "vitest";
import { minimumPhase, throughBins } from "./minimum-phase";

const rate = 24_000;
const n = 8192;
const hzOf = (k: number) => (k < n / 2 ? k : k - n) * (rate / n);
/** A single resonance of width B at -3 dB: 1 / (1 + 2 j f / B), off the centre by so many Hz. */
const resonance = (widthHz: number, offHz = 0) =>
  Float64Array.from({ length: n }, (_, k) => 1 / Math.hypot(1, (2 * (hzOf(k) - offHz)) / widthHz));

describe("a response of given magnitudes", () => {
  it.each([
    [400, 0],
    [1500, 300],
    [3000, -700],
  ])("of a resonance %d Hz wide, %d Hz off, has the resonance's own phase, -atan(2 f / B), near it", (width, off) => {
    const bins = minimumPhase(resonance(width, off));
    const phaseAt = (hz: number) => {
      const k = Math.round(hz / (rate / n));
      const at = 2 * ((k + n) % n);
      return Math.atan2(bins[at + 1], bins[at]);
    };
    const miss = (part: number) => phaseAt(off + part * width) - phaseAt(off) + Math.atan(2 * part);
    // a window of 24 kHz cuts the skirts off, which is a delay of less than half a sample; what is left beside a delay is nothing
    const delay = (miss(1) - miss(-1)) / (2 * width);
    expect(Math.abs(delay) / (2 * Math.PI)).toBeLessThan(0.5 / rate);
    for (const part of [-1, -0.5, -0.25, 0.25, 0.5, 1]) expect(Math.abs(miss(part) - delay * part * width), `${part} B`).toBeLessThan(0.01);
  });
  it("keeps its magnitudes, and answers nothing before it is struck", () => {
    const magnitude = resonance(500, 200);
    const bins = minimumPhase(magnitude);
    for (let k = 0; k < n; k += 97) expect(Math.hypot(bins[2 * k], bins[2 * k + 1])).toBeCloseTo(magnitude[k], 9);
    const struck = new Float64Array(2 * 4000);
    struck[2 * 1000] = 1;
    const out = throughBins(struck, bins);
    const powerIn = (from: number, to: number) => out.slice(2 * from, 2 * to).reduce((s, v) => s + v * v, 0);
    expect(powerIn(0, 999) / powerIn(999, 4000)).toBeLessThan(1e-3);
    // 1/(pi B) is its time constant: e^-2 of the power is left a time constant later
    const tau = Math.round(rate / (Math.PI * 500));
    expect(powerIn(1000 + tau, 4000) / powerIn(1000, 4000)).toBeCloseTo(Math.exp(-2), 1);
  });
});
