/** Second implementation: figures worked out apart from this code. */
import { describe, expect, it } from "vitest";
import { externalNoiseDb } from "../standards/external-noise";
import {
  carrierToNoise,
  dbOf,
  factorForLoss,
  factorOfLevel,
  firstStageFactor,
  gainForLoss,
  levelForFactorV,
  lossAgainstWorldDb,
  ratioOf,
  type SensitivityDefinition,
} from "./noise";

describe("sensitivity by its definition", () => {
  it("other ratios on 30 % AM, and on CW or SSB (60 s of simulated audio gave 10.02 and 12.02 dB where 10 and 12 were asked for)", () => {
    expect(dbOf(carrierToNoise({ ratio: "(S+N)/N", db: 6, mode: "AM", depth: 0.3 }))).toBeCloseTo(15.2013, 4);
    expect(dbOf(carrierToNoise({ ratio: "SINAD", db: 12, mode: "AM", depth: 0.3 }))).toBeCloseTo(22.1745, 4);
    expect(dbOf(carrierToNoise({ ratio: "(S+N)/N", db: 10, mode: "CW or SSB", depth: 0.3 }))).toBeCloseTo(9.5424, 4);
  });
  it.each([
    // the same second implementation: NF, bandwidth, mode, microvolts p.d. in 50 ohm
    [5, 500, "AM", 0.1779],
    [10, 6000, "AM", 1.096],
    [15, 6000, "AM", 1.949],
    [10, 2700, "CW or SSB", 0.2206],
    [20, 6000, "CW or SSB", 1.0397],
  ] as const)("NF %f dB, %f Hz, %s", (nf, bandwidthHz, mode, uv) => {
    const d: SensitivityDefinition = { ratio: "(S+N)/N", db: 10, mode, depth: 0.3, bandwidthHz, sourceOhm: 50, level: "p.d." };
    expect(Math.abs((levelForFactorV(ratioOf(nf), d) * 1e6) / uv - 1)).toBeLessThan(4e-4);
    expect(dbOf(factorOfLevel(levelForFactorV(ratioOf(nf), d), d))).toBeCloseTo(nf, 9);
    // as EMF the same signal reads twice as much
    expect(levelForFactorV(ratioOf(nf), { ...d, level: "EMF" }) / levelForFactorV(ratioOf(nf), d)).toBeCloseTo(2, 12);
  });
});

describe("against external noise", () => {
  it.each([
    // source: ITU-R P.372 coefficients, and a second implementation's figures from them: receiver noise figure that costs 1 dB
    ["residential", 7e6, 43.2],
    ["residential", 28e6, 26.6],
    ["quiet-rural", 3.5e6, 33.7],
  ] as const)("%s at %f Hz", (place, f, nf) => {
    expect(Math.abs(dbOf(factorForLoss(ratioOf(externalNoiseDb(f, place)), 1)) - nf)).toBeLessThan(0.1);
  });
  it("a noise figure of 15 dB costs 4.53 dB at 28 MHz against quiet rural noise alone, 0.98 at 14 (a second implementation)", () => {
    const man = (mhz: number): number => ratioOf(53.6 - 28.6 * Math.log10(mhz));
    expect(lossAgainstWorldDb(man(28), ratioOf(15))).toBeCloseTo(4.53, 1);
    expect(lossAgainstWorldDb(man(14), ratioOf(15))).toBeCloseTo(0.98, 2);
  });
  it.each([
    // a second implementation: 28 MHz, noise figure in front and behind, loss, gain needed
    [32.41372, 4, 10, 0.5, -13.70457],
    [32.41372, 6, 15, 1, -11.65625],
    [27.11372, 8, 20, 3, -7.091478],
    [12.21128, 4, 10, 1, 5.076461],
  ])("external %f dB, %f dB before %f dB, %f dB lost: %f dB of gain", (fa, f1, f2, loss, gain) => {
    expect(dbOf(gainForLoss(ratioOf(fa), ratioOf(f1), ratioOf(f2), loss)!)).toBeCloseTo(gain, 4);
  });
});

it("a first stage: 6BA6 class on a tank of 10 kohm is best at 4.91 dB from 5119 ohm, 5.34 dB matched; a pentagrid alone 18.78 dB (a second implementation)", () => {
  expect(dbOf(firstStageFactor(0, 10e3, 3551))).toBeCloseTo(4.91, 2);
  expect(dbOf(firstStageFactor(5119, 10e3, 3551))).toBeCloseTo(4.91, 2);
  expect(dbOf(firstStageFactor(10e3, 10e3, 3551))).toBeCloseTo(5.34, 2);
  expect(dbOf(firstStageFactor(0, 10e3, 183977))).toBeCloseTo(18.78, 2);
  // a stage gain of 10 before it, with a tank of 20 kohm between
  expect(dbOf(firstStageFactor(0, 10e3, 3551 + (183977 + 20e3) / 100))).toBeCloseTo(6, 2);
  // a lossless circuit and a quiet tube add nothing
  expect(firstStageFactor(1e3, 1e12, 1e-6)).toBeCloseTo(1, 6);
});
