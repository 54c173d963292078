import { expect, it } from "vitest";
import { CrystalResponse, notchHz, ringingS } from "./crystal-filter";
import { crossingHz, peakOf } from "./passband";

it("a crystal of 3.3 H, 0.042 pF and 5.8 pF resonates at 427.5 kHz, its parallel resonance 1545 Hz above (source: Terman's 430 kc example, from memory, 0.6 % off its nominal)", () => {
  const seriesHz = 1 / (2 * Math.PI * Math.sqrt(3.3 * 0.042e-12));
  expect(seriesHz / 1e3).toBeCloseTo(427.5, 1);
  expect(Math.abs(seriesHz / 430e3 - 1)).toBeLessThan(0.006);
  expect(notchHz({ seriesHz, motionalF: 0.042e-12, holderF: 5.8e-12, phasingF: 0 })! - seriesHz).toBeCloseTo(1545, -1);
});
it.each([
  // a second implementation: phasing capacitance, notch from the series resonance, kHz; crystal 455 kHz, 0.04 pF, 6 pF
  [4, 4.527],
  [5, 9.011],
  [5.5, 17.85],
  [6.5, -18.58],
  [7, -9.193],
  [8, -4.573],
])("phasing %f pF: notch %f kHz off", (pf, khz) => {
  const at = notchHz({ seriesHz: 455e3, motionalF: 0.04e-12, holderF: 6e-12, phasingF: pf * 1e-12 })!;
  expect(Math.abs((at - 455e3) / 1e3 / khz - 1)).toBeLessThan(6e-4);
});
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
it("solves the bridge: the same as its nodes written out, one arm driven against the other, a coil across the output that tunes out both arms when alike", () => {
  const c = { seriesHz: 455e3, motionalF: 0.04e-12, crystalQ: 10e3, holderF: 6e-12, aroundOhm: 10e3 };
  const l = 1 / ((2 * Math.PI * c.seriesHz) ** 2 * c.motionalF);
  const r = (2 * Math.PI * c.seriesHz * l) / c.crystalQ;
  for (const phasingF of [2e-12, 5.5e-12, 12e-12])
    for (const hz of [454.2e3, 454.99e3, 455.02e3, 456.5e3]) {
      const w = 2 * Math.PI * hz;
      const x = w * l - 1 / (w * c.motionalF);
      const [g, b] = [r / (r * r + x * x), -x / (r * r + x * x) + w * c.holderF];
      // (V - Vo) Yc - (V + Vo) Yn = Vo (1/R + 1/(j w L)), the coil's susceptance w 2 C0
      const [n, d] = [
        [g, b - w * phasingF],
        [1 / c.aroundOhm + g, b + w * phasingF - w * 2 * c.holderF],
      ];
      const power = (n[0] ** 2 + n[1] ** 2) / (d[0] ** 2 + d[1] ** 2);
      expect(new CrystalResponse({ ...c, phasingF }).at(hz) / power).toBeCloseTo(1, 9);
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
