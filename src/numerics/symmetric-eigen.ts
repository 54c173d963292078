/** Eigenvalues with their vectors, in no order: `vectors[k]` belongs to `values[k]` and is of length 1. */
interface SymmetricEigen {
  readonly values: readonly number[];
  readonly vectors: readonly Float64Array[];
}
const sweepsMost = 30;

/**
 * Eigenvalues and eigenvectors of a small symmetric matrix.
 *
 * @param matrix n by n, symmetric; left as it is
 * @returns n values, n vectors
 * @source cyclic Jacobi rotations, textbook (Golub and Van Loan, Matrix Computations, 8.5)
 */
export function symmetricEigen(matrix: readonly (readonly number[])[]): SymmetricEigen {
  const n = matrix.length;
  const a = matrix.map((row) => [...row]);
  const v = matrix.map((_, i) => Float64Array.from(matrix, (__, j) => (i === j ? 1 : 0)));
  const turn = (x: readonly (number[] | Float64Array)[], p: number, q: number, cs: number, sn: number): void => {
    for (let k = 0; k < n; k++) [x[p][k], x[q][k]] = [cs * x[p][k] - sn * x[q][k], sn * x[p][k] + cs * x[q][k]];
  };
  for (let sweep = 0; sweep < sweepsMost; sweep++) {
    let off = 0;
    for (let p = 0; p < n; p++)
      for (let q = p + 1; q < n; q++) {
        off += a[p][q] ** 2;
        if (Math.abs(a[p][q]) < 1e-300) continue;
        const theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
        const t = Math.sign(theta || 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
        const cs = 1 / Math.sqrt(t * t + 1);
        const sn = t * cs;
        for (let k = 0; k < n; k++) [a[k][p], a[k][q]] = [cs * a[k][p] - sn * a[k][q], sn * a[k][p] + cs * a[k][q]];
        turn(a, p, q, cs, sn);
        turn(v, p, q, cs, sn);
      }
    if (off < 1e-26 * a.reduce((s, row, i) => s + row[i] ** 2, 0)) break;
  }
  return { values: a.map((row, i) => row[i]), vectors: v };
}
