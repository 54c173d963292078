/** The power in bands of audio beside a centre, against Simpson's rule in many thousand even steps. */
import { describe, expect, it } from "vitest";
import { StripResponse } from "./if-strip";
import { type BandBeside, BandPowers } from "./noise-band";
import { peakOf } from "./passband";
import { narrow, pair, wide } from "./prototype-strips.testdata";
import type { Response } from "./response";

function integralBySimpson(r: Response, centreHz: number, { fromHz, toHz }: BandBeside): number {
  const n = 20_000;
  let sum = 0;
  for (let i = 0; i <= n; i++) sum += r.at(centreHz + fromHz + ((toHz - fromHz) * i) / n) * (i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2);
  return (sum * (toHz - fromHz)) / (3 * n);
}
/** A resonance by itself, 30 Hz wide, at 455 kHz: as sharp as regeneration makes a tank. */
const sharp: Response = {
  at: (hz) => 1 / (1 + ((hz - 455e3) / 15) ** 2),
  complexAt: () => undefined,
  re: 0,
  im: 0,
};
/** Speech above and below a beat oscillator that lies half the band below the middle; a tone of 800 Hz on the peak; far bands beyond the audio. */
const bands: readonly (readonly [BandBeside, BandBeside])[] = [
  [
    { fromHz: -1350, toHz: 1350 },
    { fromHz: -4650, toHz: -1950 },
  ],
  [
    { fromHz: -500, toHz: 2200 },
    { fromHz: -3800, toHz: -1100 },
  ],
  [
    { fromHz: 7000, toHz: 40_000 },
    { fromHz: -12_000, toHz: 12_000 },
  ],
];

describe("the power in two bands beside a centre", () => {
  const strips = [wide, narrow, pair(0.03)].map((s) => new StripResponse(s));
  it.each([
    ["the wide strip", strips[0], peakOf(strips[0], [455e3]).hz],
    ["a strip with a ceramic filter", strips[1], peakOf(strips[1], [455e3]).hz],
    ["a pair three times overcoupled", strips[2], peakOf(strips[2], [455e3]).hz],
    ["a resonance 30 Hz wide", sharp, 455e3],
  ] as [string, Response, number][])("of %s is the integral by another rule, to 2 in 10^6", (_, r, centreHz) => {
    const powers = new BandPowers();
    for (const [wanted, other] of bands) {
      powers.over(r, centreHz, wanted, other);
      expect(Math.abs(powers.wanted / integralBySimpson(r, centreHz, wanted) - 1)).toBeLessThan(2e-6);
      expect(Math.abs(powers.other / integralBySimpson(r, centreHz, other) - 1)).toBeLessThan(2e-6);
    }
  });
});
