import { describe, expect, it } from "vitest";
import { orThrow } from "../../units/issue";
import { fitDial } from "./fit";
import { dialAt } from "./fitted";

describe("second implementation: eleven zero beats on an invented bandspread scale", () => {
  const r = [5, 14, 24, 33, 43, 52, 61, 70, 79, 88, 95];
  const f = [3500000, 3546231, 3598285, 3645733, 3699096, 3747677, 3796758, 3846310, 3896301, 3946694, 3986141];
  const points = r.map((reading, i) => ({ reading, frequencyHz: f[i], approach: 0 as const }));
  const fit = orThrow(
    fitDial(points, { intermediateHz: 455e3, oscillator: "above" }, { readingNoise: 0.1, zeroBeatHz: 0, backlash: 0, backlashU: 0 }),
  );
  it.each([
    [10, 3525611, 195.5734],
    [28, 3619304, 183.5193],
    [50, 3736837, 170.3525],
    [75, 3874031, 195.7865],
    [90, 3957943, 203.5295],
  ])("at %f it is %i Hz", (reading, hz, sigma) => {
    const a = dialAt(fit, reading);
    expect(Math.abs(a.hz - hz)).toBeLessThan(1e-6 * hz);
    // its weights of the noise are not stated, and carry over into the doubt: 10 %
    expect(Math.abs(a.uHz / sigma - 1)).toBeLessThan(0.1);
  });
});
