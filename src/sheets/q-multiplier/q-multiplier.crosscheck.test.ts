import { expect, it } from "vitest";
import { answer } from "../../ask/answer";
import { emptyBench } from "../../set/bench";
import { orThrow } from "../../units/issue";
import { sheetById } from "../index";

const solved = (overrides = {}) => {
  const a = orThrow(answer(sheetById("q-multiplier")!, emptyBench, { draws: 2, points: 11, overrides }));
  return (name: string) => a.results[name].value as number;
};

// Source of every value: the whole circuit as one nodal matrix in Python, written from the circuits alone, without sight of this code.
it("on its defaults, agrees with an independent nodal solution", () => {
  const v = solved();
  const near = (name: string, value: number, within: number) => expect(Math.abs(v(name) / value - 1)).toBeLessThan(within);
  near("criticalConductance", 45.08727e-6, 2e-7);
  near("multipliedQ", 1035.145, 2e-6);
  near("width6dB", 748.3351, 2e-7);
  near("gainChange", 4.920245, 2e-7);
  near("noiseImprovementAm", 8.842754, 2e-7);
  near("noiseImprovementCw", 7.674381, 1e-6);
  near("noiseImprovementSsb", 1.17832, 5e-6);
  near("survivingRegeneration", 0.95687, 2e-6);
  near("width6dBBefore", 6104.806, 2e-7);
  near("rejectionBefore", 17.6525, 1e-6);
});
it("counts from the pass band's middle where a winding is off, as that solution does", () => {
  expect(Math.abs(solved({ "strip.can1.primaryOffset": "1.5 kHz" })("noiseImprovementSsb") - 1.204)).toBeLessThan(0.0006);
  expect(Math.abs(solved({ "strip.can2.secondaryOffset": "-2 kHz" })("noiseImprovementSsb") - 1.208)).toBeLessThan(0.0006);
});
