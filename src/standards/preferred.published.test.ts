import { expect, it } from "vitest";
import { eSeries, nearestPreferred, nextPreferred, nextRatedV } from "./preferred";

// Source: IEC 60063, table of the E24 series.
it("gives the 24 values of E24 as printed", () =>
  expect(eSeries(24)).toEqual([
    1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1,
  ]));
it("gives E6 and E12 as their subsets", () => {
  expect(eSeries(6)).toEqual([1.0, 1.5, 2.2, 3.3, 4.7, 6.8]);
  expect(eSeries(12)).toEqual([1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2]);
});
it("rounds up within and across decades, and keeps a preferred value", () => {
  expect(nextPreferred(870e-12, 6)).toBeCloseTo(1e-9, 15);
  expect(nextPreferred(4.7e-9, 6)).toBeCloseTo(4.7e-9, 15);
  expect(nextPreferred(4.71e-9, 12)).toBeCloseTo(5.6e-9, 15);
  expect(nextRatedV(690)).toBe(1000);
});
it("E48 to E192 are three figures of 10^(n/N), with the one exception 9.20 (IEC 60063)", () => {
  expect(eSeries(48).slice(0, 6)).toEqual([1.0, 1.05, 1.1, 1.15, 1.21, 1.27]);
  expect(eSeries(96).slice(-4)).toEqual([9.09, 9.31, 9.53, 9.76]);
  expect(eSeries(192)).toHaveLength(192);
  expect(eSeries(192)).toContain(9.2);
  expect(eSeries(192)).not.toContain(9.19);
});
it.each([
  [0.05, 12, 0.047],
  [0.02, 12, 0.022],
  [0.25, 12, 0.27],
  [16, 12, 15],
  [25e3, 12, 27e3],
  [25e3, 24, 24e3],
  [50e3, 12, 47e3],
  [250e3, 12, 270e3],
  [500e3, 12, 470e3],
  [5e6, 12, 4.7e6],
] as const)("an old %f has %f nearest by ratio in its series (E%i)", (old, series, value) => {
  expect(nearestPreferred(old, series)).toBeCloseTo(value, 9);
});
