/** Second implementation: figures worked out apart from this code. */
import { expect, it } from "vitest";
import { CrystalResponse, notchHz } from "./crystal-filter";

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
