import { describe, expect, it } from "vitest";
import { partsHz, partsOf } from "./oscillator-parts";
import {
  endsAndMiddle,
  lawThrough,
  lawThroughTwo,
  minimaxTracking,
  oscillatorHzAt,
  signalHzAt,
  type TrackedBand,
  threeChebyshevPoints,
  trackingErrorHz,
} from "./tracking";

/** A second implementation of three-point tracking, equal ripple to 1e-12; identities of the circuit; the closed form of two-point tracking. */
const band = (lowHz: number, highHz: number, oscillator: "above" | "below" = "above"): TrackedBand => ({
  lowHz,
  highHz,
  intermediateHz: 455e3,
  oscillator,
});
const worst = (t: TrackedBand, points: [number, number, number]): number => {
  const law = lawThrough(t, points)!;
  return Math.max(
    ...Array.from({ length: 4001 }, (_, i) => Math.abs(trackingErrorHz(t, law, t.lowHz + ((t.highHz - t.lowHz) * i) / 4000))),
  );
};

describe("three-point tracking", () => {
  it.each([
    [0.54e6, 1.65e6, 10.4786, 6.920221, 5.094573, [0.053, 0.442, 0.918]],
    [1.6e6, 4.8e6, 13.7, 9.84, 6.874813, [0.051, 0.437, 0.918]],
    [4.8e6, 14.5e6, 15.9582, 12.02836, 8.116392, [0.049, 434 / 1000, 0.918]],
    [10.5e6, 30e6, 14.14, 10.73, 7.31, [0.05, 0.436, 0.919]],
  ])("%f to %f Hz: worst %f kHz by ends and middle, %f by Chebyshev points, %f at the least", (low, high, plain, chebyshev, least, at) => {
    const t = band(low, high);
    expect(worst(t, endsAndMiddle(t)) / 1e3).toBeCloseTo(plain, 2);
    expect(worst(t, threeChebyshevPoints(t)) / 1e3).toBeCloseTo(chebyshev, 2);
    const m = minimaxTracking(t)!;
    expect(m.worstHz / 1e3).toBeCloseTo(least, 2);
    for (const [i, p] of m.points.entries()) expect((p - low) / (high - low)).toBeCloseTo(at[i], 3);
  });
  it("parts on a gang of 10 to 365 pF for 540 to 1650 kHz: 123.289 uH, 423.35 pF, 42.07 pF", () => {
    const t = band(0.54e6, 1.65e6);
    const parts = partsOf(lawThrough(t, endsAndMiddle(t))!, 218.486e-6, 32.58423e-12)!;
    expect(parts.henry * 1e6).toBeCloseTo(123.289, 2);
    expect(parts.padderF * 1e12).toBeCloseTo(423.347, 1);
    expect(parts.trimmerF * 1e12).toBeCloseTo(42.07, 2);
  });
  it("with the trimmer across the coil: 102.0076 uH, 465.4175 pF, 46.25105 pF for the same curve", () => {
    const t = band(0.54e6, 1.65e6);
    const law = lawThrough(t, endsAndMiddle(t))!;
    const coil = partsOf(law, 218.486e-6, 32.58423e-12, "across the coil")!;
    expect(coil.henry * 1e6).toBeCloseTo(102.0076, 2);
    expect(coil.padderF * 1e12).toBeCloseTo(465.4175, 1);
    expect(coil.trimmerF * 1e12).toBeCloseTo(46.25105, 2);
    const gang = partsOf(law, 218.486e-6, 32.58423e-12)!;
    for (let pf = 10; pf <= 365; pf += 5) expect(Math.abs(partsHz(coil, pf * 1e-12) - partsHz(gang, pf * 1e-12))).toBeLessThan(1e-6);
  });
  it("a trimmer without a padder is exact at both its points and has the closed form's value (Csmax - R Csmin)/(R - 1)", () => {
    const t = band(14e6, 16e6);
    const law = lawThroughTwo(t, [t.lowHz, t.highHz])!;
    for (const f of [t.lowHz, t.highHz]) expect(Math.abs(trackingErrorHz(t, law, f))).toBeLessThan(1e-3);
    const [signalH, signalTrimmerF] = [1.2e-6, 8e-12];
    const whole = (f: number): number => 1 / ((2 * Math.PI * f) ** 2 * signalH);
    const ratio = ((t.highHz + 455e3) / (t.lowHz + 455e3)) ** 2;
    const closedF = (whole(t.lowHz) - ratio * whole(t.highHz)) / (ratio - 1);
    const parts = partsOf(law, signalH, signalTrimmerF)!;
    expect(parts.layout).toBe("no padder");
    // the closed form counts the signal circuit's whole capacitance as its gang
    expect(parts.trimmerF).toBeCloseTo(closedF + signalTrimmerF, 16);
    expect(partsHz(parts, whole(15e6) - signalTrimmerF) - 15.455e6).toBeCloseTo(trackingErrorHz(t, law, 15e6), 2);
  });
  it("the least worst error of a trimmer alone has three peaks of one size, and is less than any other choice of points", () => {
    const t = band(14e6, 16e6);
    const m = minimaxTracking(t, false)!;
    expect(m.points).toHaveLength(2);
    const peak = (law: ReturnType<typeof lawThroughTwo>): number =>
      Math.max(...Array.from({ length: 2001 }, (_, i) => Math.abs(trackingErrorHz(t, law!, 14e6 + 1e3 * i))));
    expect(peak(m.law)).toBeCloseTo(m.worstHz, 1);
    for (const k of [0.9, 1.1]) expect(peak(lawThroughTwo(t, [14e6 + k * (m.points[0] - 14e6), m.points[1]]))).toBeGreaterThan(m.worstHz);
  });
  it("the gang's place for an oscillator frequency gives that frequency back", () => {
    const t = band(1.6e6, 4.8e6);
    for (const law of [lawThrough(t, endsAndMiddle(t))!, lawThroughTwo(t, [t.lowHz, t.highHz])!])
      for (const f of [1.6e6, 2.5e6, 4.8e6]) expect(signalHzAt(law, oscillatorHzAt(law, f)) / f).toBeCloseTo(1, 9);
  });
  it("is exact at its three points, on either side", () => {
    for (const oscillator of ["above", "below"] as const) {
      const t = band(1.6e6, 4.8e6, oscillator);
      const law = lawThrough(t, endsAndMiddle(t))!;
      for (const f of endsAndMiddle(t)) expect(Math.abs(trackingErrorHz(t, law, f))).toBeLessThan(1e-3);
    }
  });
  it("parts on a gang give the law back, and a lossless rescaling of L and C changes no frequency", () => {
    const t = band(1.6e6, 4.8e6);
    const law = lawThrough(t, threeChebyshevPoints(t))!;
    const signalH = 22e-6;
    for (const scale of [1, 2]) {
      const parts = partsOf(law, signalH / scale, 15e-12 * scale)!;
      for (const f of [1.6e6, 2.2e6, 3.3e6, 4.8e6]) {
        const gangF = 1 / ((2 * Math.PI * f) ** 2 * (signalH / scale)) - 15e-12 * scale;
        expect(partsHz(parts, gangF) - (f + 455e3)).toBeCloseTo(trackingErrorHz(t, law, f), 2);
      }
    }
  });
});
