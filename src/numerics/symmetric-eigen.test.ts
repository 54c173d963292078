import { expect, it } from "vitest";
import { symmetricEigen } from "./symmetric-eigen";

it("takes a symmetric matrix apart and gives it back", () => {
  const a = [
    [4, 1, -2],
    [1, 2, 0],
    [-2, 0, 3],
  ];
  const { values, vectors } = symmetricEigen(a);
  a.forEach((row, i) => {
    row.forEach((v, j) => {
      expect(values.reduce((s, x, k) => s + x * vectors[k][i] * vectors[k][j], 0)).toBeCloseTo(v, 12);
    });
  });
});
