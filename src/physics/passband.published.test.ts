/**
 * Double-tuned and single-tuned theory. Sources: Terman, Radio Engineering (working rules for sharpness of resonance; from memory, exact as
 * identities); two double-tuned stages keep 80 % of the bandwidth (an encyclopedia's article "Double-tuned amplifier", read); rule of the overcoupled pair
 * (k Q = 1 + sqrt 2 dips 3 dB and is 3.1 f0/Q wide); a textbook's solved problem on n-stage cut-off, 19 610 Hz (read; title not kept). Tolerances: half a unit of
 * the last printed digit.
 */
import { describe, expect, it } from "vitest";
import { StripResponse } from "./if-strip";
import { noiseBandwidthHz } from "./noise-band";
import { crossingHz, peakOf, widthHz } from "./passband";
import { pair } from "./prototype-strips.testdata";
import type { Response } from "./response";

/** n single circuits of Q 1000 at 455 kHz, synchronously tuned, in the narrow-band form. */
const singles = (n: number): Response => ({
  re: 0,
  im: 0,
  complexAt: () => undefined,
  at: (hz) => (1 + ((2000 * (hz - 455e3)) / 455e3) ** 2) ** -n,
});
/** One pair of high Q, so that the nodal solve meets the narrow-band theory. */
const q = 20_000;
const highQ = (kq: number) => {
  const strip = pair(kq / q);
  return { ...strip, cans: strip.cans.map((c) => ({ ...c, primaryQ: q, secondaryQ: q })) };
};
const half = 10 * Math.log10(2);

describe("single circuits", () => {
  it("are 70.7 % half a bandwidth off resonance and 44.7 % a whole one off", () => {
    expect(Math.sqrt(singles(1).at(455e3 * (1 + 1 / 2000)))).toBeCloseTo(Math.SQRT1_2, 3);
    expect(Math.sqrt(singles(1).at(455e3 * (1 + 1 / 1000)))).toBeCloseTo(0.447, 3);
  });
  it.each([
    [1, 1.0, 1.571],
    [2, 0.6436, 1.22],
    [3, 0.5098, 1.155],
    [4, 0.435, 1.128],
  ])("%i of them: width and noise factor", (n, shrink, noise) => {
    const r = singles(n);
    const peak = peakOf(r, [455e3]);
    const w = widthHz(r, peak, half);
    expect(Math.abs(w / 455 - shrink)).toBeLessThan(0.0006);
    // a single circuit's skirts beyond 45 % hold 0.1 % of its noise
    expect(Math.abs(noiseBandwidthHz(r, peak) / w - noise)).toBeLessThan(n === 1 ? 0.003 : 0.0006);
  });
  it("three stages for 10 kHz overall need 19 610 Hz each (solved problem, 3 figures in its factor)", () => {
    expect(Math.abs(10_000 / 0.5098 - 19_610)).toBeLessThan(10);
    const r = singles(3);
    expect(Math.abs((10_000 * 455) / widthHz(r, peakOf(r, [455e3]), half) - 19_610)).toBeLessThan(10);
  });
});

describe("double-tuned pairs by the nodal solve", () => {
  it.each([[0.5], [1], [2]])("k Q = %f: widths follow y^4 + 2 y^2 (1 - a^2) + (1 + a^2)^2 (1 - 10^(L/10)) = 0", (kq) => {
    const r = new StripResponse(highQ(kq));
    const peak = peakOf(r, [455e3]);
    const a2 = kq * kq;
    const top = kq > 1 ? 4 * a2 : (1 + a2) ** 2;
    for (const level of [3, 6, 20, 40]) {
      const rhs = top * 10 ** (level / 10) - (1 + a2) ** 2;
      const y2 = a2 - 1 + Math.sqrt((a2 - 1) ** 2 + rhs);
      expect(Math.abs((widthHz(r, peak, level) * q) / 455e3 / Math.sqrt(y2) - 1)).toBeLessThan(5e-4);
    }
  });
  it("k Q = 1 + sqrt 2: the textbook's 3 dB dip and 3.1 f0/Q", () => {
    const r = new StripResponse(highQ(1 + Math.SQRT2));
    const peak = peakOf(r, [455e3]);
    expect(Math.abs(10 * Math.log10(peak.power / r.at(455e3)) - 3)).toBeLessThan(0.05);
    expect(Math.abs((widthHz(r, peak, half) * q) / 455e3 - 3.1)).toBeLessThan(0.05);
  });
  it("two critical stages keep the printed 80 % of the bandwidth of one", () => {
    const one = highQ(1);
    const two = { ...one, cans: [one.cans[0], one.cans[0]] };
    const width = (s: typeof one) => widthHz(new StripResponse(s), peakOf(new StripResponse(s), [455e3]), half);
    expect(Math.abs(width(two) / width(one) - 0.8)).toBeLessThan(0.005);
  });
  it("critical pairs have the noise factor 1.111", () => {
    const r = new StripResponse(highQ(1));
    const peak = peakOf(r, [455e3]);
    expect(Math.abs(noiseBandwidthHz(r, peak) / widthHz(r, peak, half) - 1.111)).toBeLessThan(0.001);
  });
  it("is symmetric where nothing is detuned", () => {
    const r = new StripResponse(highQ(1));
    const peak = peakOf(r, [455e3]);
    expect(Math.abs(crossingHz(r, peak, 6, 1) + crossingHz(r, peak, 6, -1) - 2 * 455e3)).toBeLessThan(0.2);
  });
});
