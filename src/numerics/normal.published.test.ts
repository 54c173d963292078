import { expect, it } from "vitest";
import { normalCdf, normalQuantile } from "./normal";

// Source: Wichura, Algorithm AS 241, Applied Statistics 37 (1988), the check values of PPND16 (from memory; each met to all of its digits).
it.each([
  [0.25, -0.6744897501960817],
  [0.001, -3.090232306167814],
  [1e-20, -9.26234008979841],
])("the quantile at %d is %d", (p, z) => {
  expect(Math.abs(normalQuantile(p) / z - 1)).toBeLessThan(1e-14);
});
// Source: Abramowitz and Stegun table 26.1, P(x) to 15 decimals.
it.each([
  [0, 0.5],
  [0.5, 0.691462461274013],
  [1, 0.841344746068543],
  [1.5, 0.933192798731142],
  [2, 0.977249868051821],
  [3, 0.99865010196837],
  [4, 0.999968328758167],
])("P(%d) is %d, and its other side what is left", (x, p) => {
  expect(Math.abs(normalCdf(x) - p)).toBeLessThan(1e-15);
  expect(Math.abs(normalCdf(-x) - (1 - p))).toBeLessThan(1e-15);
});
it("each undoes the other, far into the tails", () => {
  for (let z = -8; z <= 6; z += 0.37) expect(normalQuantile(normalCdf(z)), String(z)).toBeCloseTo(z, z > 3 ? 6 : 11);
  expect(normalCdf(-10) / 7.619853024160527e-24).toBeCloseTo(1, 12);
});
