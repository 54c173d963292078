import { expect, it } from "vitest";
import { inductanceToResonateH, parallelResistanceOhm, resonanceHz } from "./resonance";

// Source: a page of solved course exercises, read (address not kept), series circuit L 20 mH, C 15 nF: f0 printed 9189 Hz.
it("gives the printed 9189 Hz for 20 mH and 15 nF", () => expect(Math.abs(resonanceHz(20e-3, 15e-9) - 9189)).toBeLessThan(0.5));
// Source: a textbook's chapter "Tuned amplifiers", example 5.1, read (title and edition not kept): 1 MHz, 250 uH, Q 300 gives Rp 471.24 kohm.
it("gives the printed 471.24 kohm for 250 uH with Q 300 at 1 MHz", () => {
  const c = 1 / ((2 * Math.PI * 1e6) ** 2 * 250e-6);
  expect(Math.abs(parallelResistanceOhm(1e6, c, 300) - 471_240)).toBeLessThan(5);
});
// Source: handbook constant L[uH] C[pF] f[MHz]^2 = 25330, from memory (exact 25330.2959).
it("agrees with the handbook constant 25330", () =>
  expect(Math.abs(inductanceToResonateH(1e6, 100e-12) * 1e6 * 100 - 25330)).toBeLessThan(0.5));
