import { describe, expect, it } from "vitest";
import { normalStream } from "../numerics/random";
import { orThrow } from "../units/issue";
import { hearRecording } from "./recording";
import { recordingFigures } from "./recording-figures";

const rate = 2000;
const made = (seconds: number, of: (t: number) => number, noise = 0, seed = 1): Float64Array => {
  const z = normalStream(seed, "recording", seconds * rate);
  return Float64Array.from({ length: seconds * rate }, (_, i) => of(i / rate) + noise * z[i]);
};
/** Samples as a recording of one channel. */
const figuresOf = (x: Float64Array, sampleRateHz = rate) => {
  const r = {
    sampleRateHz,
    channelsCount: 1,
    samplesCount: x.length,
    samples: (_: number, from: number, n: number) => x.slice(from, from + n),
    warnings: [],
  };
  return recordingFigures(r, orThrow(hearRecording(r, "made")));
};
const named = (x: Float64Array) => new Map(figuresOf(x).map((f) => [f.name, f]));
const tau = 2 * Math.PI;

describe("a tone", () => {
  it("that wanders is given by the range that it ran over", () => {
    // 50.005 Hz, 33 mHz up and down in 60 s
    const f = named(made(120, (t) => 0.3 * Math.sin(tau * (50.005 * t - ((0.033 * 60) / tau) * Math.cos((tau * t) / 60))), 0.01)).get(
      "strongest tone",
    )!;
    expect(f.ran!.from).toBeLessThan(49.98);
    expect(f.ran!.to).toBeGreaterThan(50.03);
    expect(f.ran!.from).toBeGreaterThan(49.96);
    expect(f.ran!.to).toBeLessThan(50.05);
  });
  it("that stands is known to the scatter of its stretches, and holds the truth", () => {
    const off = Array.from({ length: 6 }, (_, seed) => {
      const f = named(made(8, (t) => 0.3 * Math.sin(tau * 437.123 * t), 0.1, seed)).get("strongest tone")!;
      expect(f.ran).toBeUndefined();
      return Math.abs(f.value - 437.123) / f.u;
    });
    expect(off.filter((z) => z > 2.5).length).toBeLessThanOrEqual(1);
  });
  it("is one of several", () => {
    const x = made(10, (t) => 0.3 * Math.sin(tau * 400 * t) + 0.1 * Math.sin(tau * 700 * t), 0.01);
    const f = named(x);
    expect(Math.abs(f.get("tone 2")!.value - 700)).toBeLessThan(0.01);
    expect(f.get("level of tone 2, peak, re full scale")!.value).toBeCloseTo(-20, 0);
    expect(f.has("tone 3")).toBe(false);
  });
});
describe("hum", () => {
  it("is not printed of white noise", () => {
    const said = Array.from({ length: 20 }, (_, seed) =>
      figuresOf(
        made(5, () => 0, 0.1, seed),
        rate,
      ),
    );
    expect(said.flat().filter((f) => f.name.includes("hum") || f.name.includes("tone")).length).toBeLessThanOrEqual(1);
  });
  it("is printed where its line stands above the noise", () => {
    const f = named(made(10, (t) => 0.01 * Math.sin(tau * 100 * t), 0.02));
    // 0.01 peak is -43.0 dB rms
    expect(Math.abs(f.get("hum at 100 Hz, rms, re full scale")!.value + 43)).toBeLessThan(0.6);
    expect(f.has("hum at 50 Hz, rms, re full scale")).toBe(false);
  });
  it("that rides on the tone is told by its two sides", () => {
    // 6 % amplitude modulation: each side 20 log(0.03) under the carrier
    const f = named(made(10, (t) => 0.3 * (1 + 0.06 * Math.cos(tau * 120 * t)) * Math.sin(tau * 600 * t), 0.001));
    expect(f.get("hum on the tone, 120 Hz to each side, relative to the tone")!.value).toBeCloseTo(-30.46, 1);
  });
});
