import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { StripResponse } from "./if-strip";
import type { StripModel } from "./if-strip-numbers";
import { noiseBandwidthHz } from "./noise-band";
import { crossingHz, peakOf } from "./passband";
import { narrow, pair, wide } from "./prototype-strips.testdata";

/** Simpson's rule over the logarithm of the distance, many thousand steps a side. */
function integralBySimpson(r: StripResponse, centreHz: number, farHz: number): number {
  const [near, n] = [0.01, 40_000];
  let sum = 0;
  for (let i = 0; i <= n; i++) {
    const d = near * (farHz / near) ** (i / n);
    sum += (r.at(centreHz + d) + r.at(centreHz - d)) * d * (i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2);
  }
  return (sum * Math.log(farHz / near)) / (3 * n) + 2 * near * r.at(centreHz);
}

describe("noise bandwidth", () => {
  it.each([
    ["the wide strip", wide],
    ["a strip with a ceramic filter", narrow],
    ["a pair three times overcoupled", pair(0.03)],
  ] as [string, StripModel][])("of %s is the integral by another rule, to 5 in 10^8", (_, strip) => {
    const r = new StripResponse(strip);
    const peak = peakOf(r, [455e3]);
    expect(Math.abs(noiseBandwidthHz(r, peak) / (integralBySimpson(r, peak.hz, 0.45 * peak.hz) / peak.power) - 1)).toBeLessThan(5e-8);
  });
});

const off = fc.integer({ min: -4000, max: 4000 });
/** A wide strip whose four windings were turned anyhow: humps of all heights. */
const turned = fc.tuple(off, off, off, off, fc.double({ min: 0.5, max: 2.5, noNaN: true })).map(
  ([a, b, c, d, k]): StripModel => ({
    ...wide,
    cans: wide.cans.map((can, i) => ({
      ...can,
      primaryOffset: i === 0 ? a : c,
      secondaryOffset: i === 0 ? b : d,
      coupling: can.coupling * k,
    })),
  }),
);
it("no place on a grid of 25 Hz is higher than the peak, whatever the slugs were turned to", () => {
  fc.assert(
    fc.property(turned, (strip) => {
      const r = new StripResponse(strip);
      const peak = peakOf(r, [455e3]);
      let highest = 0;
      for (let hz = 430e3; hz <= 480e3; hz += 25) highest = Math.max(highest, r.at(hz));
      expect(highest).toBeLessThanOrEqual(peak.power * (1 + 1e-9));
    }),
    { numRuns: 60, seed: 7 },
  );
});
it("an outermost crossing lies on its level, and nothing beyond comes up to it again", () => {
  fc.assert(
    fc.property(turned, fc.constantFrom(3, 6, 20, 60), fc.constantFrom(-1 as const, 1 as const), (strip, level, side) => {
      const r = new StripResponse(strip);
      const peak = peakOf(r, [455e3]);
      const at = crossingHz(r, peak, level, side);
      expect(Math.abs(10 * Math.log10(peak.power / r.at(at)) - level)).toBeLessThan(1e-5);
      let highest = 0;
      for (let d = 50; d < 60_000; d *= 1.01) highest = Math.max(highest, r.at(at + side * d));
      expect(highest).toBeLessThan(peak.power * 10 ** (-level / 10));
    }),
    { numRuns: 60, seed: 7 },
  );
});
it("the noise of a peak that no search found comes to an end, and is none", () => {
  const strip = new StripResponse(fc.sample(turned, { numRuns: 1, seed: 7 })[0]);
  for (const peak of [
    { hz: -5e3, power: 1 },
    { hz: Number.NaN, power: 1 },
    { hz: 0, power: 1 },
    { hz: 455e3, power: Number.NaN },
  ])
    expect(noiseBandwidthHz(strip, peak)).toBeNaN();
});
it("ends where a response never falls off", () => {
  const flat = { at: () => 1, complexAt: () => undefined, re: 1, im: 0 };
  expect(noiseBandwidthHz(flat, { hz: 455e3, power: 1 }) / (2 * 0.45 * 455e3)).toBeCloseTo(1, 3);
});
