import { expect, it } from "vitest";
import { chiSquareQuantile } from "./chi-square";

/** Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, upper critical values; printed to 0.001. */
it.each([
  [1, 3.841, 6.635, 0.03],
  [2, 5.991, 9.21, 0.01],
  [3, 7.815, 11.345, 0.006],
  [5, 11.07, 15.086, 0.005],
  [10, 18.307, 23.209, 0.005],
  [30, 43.773, 50.892, 0.005],
])("with %i degrees of freedom 95 %% lie under %f and 99 %% under %f", (freedom, p95, p99, within) => {
  expect(Math.abs(chiSquareQuantile(0.95, freedom) / p95 - 1)).toBeLessThan(within);
  expect(Math.abs(chiSquareQuantile(0.99, freedom) / p99 - 1)).toBeLessThan(within);
});
