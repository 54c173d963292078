/** Laws and limiting cases. */
import { expect, it } from "vitest";
import { circuitsRejectionDb, halfIfHz, imageHz } from "./images";

it("limits: no circuit leaves all of it, a tuned one leaves its own frequency whole, many add up", () => {
  expect(circuitsRejectionDb(0, 80, 7e6, 8e6)).toBe(0);
  expect(circuitsRejectionDb(3, 80, 7e6, 7e6)).toBe(0);
  expect(circuitsRejectionDb(3, 80, 7e6, 8e6)).toBeCloseTo(3 * circuitsRejectionDb(1, 80, 7e6, 8e6), 10);
  // far off it goes 20 dB a decade and circuit
  expect(circuitsRejectionDb(1, 80, 1e6, 1e9) - circuitsRejectionDb(1, 80, 1e6, 1e8)).toBeCloseTo(20, 2);
});

it("image and half IF stand on the oscillator's side, and the oscillator below mirrors them", () => {
  expect(imageHz(7e6, 455e3, "above") - 7e6).toBe(910e3);
  expect(7e6 - imageHz(7e6, 455e3, "below")).toBe(910e3);
  const f = halfIfHz(7e6, 455e3, "above");
  expect(Math.abs(2 * f - 2 * (7e6 + 455e3))).toBeCloseTo(455e3, 6);
});
