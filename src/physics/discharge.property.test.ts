/** Laws and limiting cases. */
import { expect, it } from "vitest";
import { timeToFall } from "./discharge";

it("without a bleeder it never falls by itself, and a larger load is never slower", () => {
  expect(timeToFall(20e-6, Number.POSITIVE_INFINITY, 450, 60)).toBe(Number.POSITIVE_INFINITY);
  expect(timeToFall(20e-6, 50e3, 450, 60)).toBeLessThan(timeToFall(20e-6, 100e3, 450, 60));
  expect(timeToFall(20e-6, 50e3, 50, 60)).toBe(0);
});
