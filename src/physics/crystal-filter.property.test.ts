/** Laws and limiting cases. */
import { expect, it } from "vitest";
import { CrystalResponse, notchHz, ringingS } from "./crystal-filter";
import { crossingHz, peakOf } from "./passband";

const filter = (phasingF: number) =>
  new CrystalResponse({ seriesHz: 455e3, motionalF: 0.04e-12, crystalQ: 10e3, holderF: 6e-12, phasingF, aroundOhm: 10e3 });

it("laws: balanced there is no notch and both sides are alike; off balance the response has its least at the notch", () => {
  expect(notchHz({ seriesHz: 455e3, motionalF: 0.04e-12, holderF: 6e-12, phasingF: 6e-12 })).toBeUndefined();
  const even = filter(6e-12);
  expect(Math.abs(even.at(456e3) / even.at(455e3 ** 2 / 456e3) - 1)).toBeLessThan(1e-9);
  for (const pf of [4.5, 7.5]) {
    const r = filter(pf * 1e-12);
    const n = notchHz({ seriesHz: 455e3, motionalF: 0.04e-12, holderF: 6e-12, phasingF: pf * 1e-12 })!;
    expect(r.at(n)).toBeLessThan(r.at(n - 500));
    expect(r.at(n)).toBeLessThan(r.at(n + 500));
  }
});

it("balanced it is a single resonance: width f (R1 + R) 2 pi f C1, ringing 1/(pi B)", () => {
  const r = filter(6e-12);
  const peak = peakOf(r, [455e3]);
  const b = crossingHz(r, peak, 10 * Math.log10(2), 1) - crossingHz(r, peak, 10 * Math.log10(2), -1);
  const r1 = 1 / (2 * Math.PI * 455e3 * 0.04e-12 * 10e3);
  expect(b / (455e3 * (r1 + 10e3) * 2 * Math.PI * 455e3 * 0.04e-12)).toBeCloseTo(1, 4);
  expect(ringingS(b) * Math.PI * b).toBeCloseTo(1, 12);
});
