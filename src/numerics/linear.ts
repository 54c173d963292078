/** Small dense real linear algebra on row-major Float64Array. */

/**
 * Lower Cholesky factor of a covariance matrix; directions without variance are allowed (their column is zero).
 *
 * @param matrix n by n, symmetric, positive semidefinite, row-major; its lower half is read
 * @param n order
 * @returns lower factor L with L Lt = matrix, row-major; undefined where the matrix has a clearly negative direction
 * @source textbook algorithm (Golub and Van Loan, Matrix Computations, 4.2), semidefinite form
 */
export function choleskyFactor(matrix: ArrayLike<number>, n: number): Float64Array | undefined {
  const l = new Float64Array(n * n);
  let scale = 0;
  for (let i = 0; i < n; i++) scale = Math.max(scale, matrix[i * n + i]);
  for (let j = 0; j < n; j++) {
    const own = j * n;
    let d = matrix[own + j];
    for (let k = 0; k < j; k++) d -= l[own + k] * l[own + k];
    if (d < -1e-9 * scale) return undefined;
    if (d <= 1e-14 * scale) continue;
    const root = Math.sqrt(d);
    l[own + j] = root;
    for (let row = own + n; row < n * n; row += n) {
      let s = matrix[row + j];
      for (let k = 0; k < j; k++) s -= l[row + k] * l[own + k];
      l[row + j] = s / root;
    }
  }
  return l;
}

/**
 * Solves a x = b for a few unknowns; an unknown that nothing tells gets 0.
 *
 * @param a n by n, row-major; overwritten
 * @param b length n; overwritten with x
 * @param n number of unknowns
 * @source Gaussian elimination with the largest pivot of each column, textbook algorithm
 */
export function eliminateInPlace(a: Float64Array, b: Float64Array, n: number): void {
  for (let k = 0; k < n; k++) {
    let top = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i * n + k]) > Math.abs(a[top * n + k])) top = i;
    if (a[top * n + k] === 0) continue;
    if (top !== k) {
      for (let j = k; j < n; j++) {
        const t = a[k * n + j];
        a[k * n + j] = a[top * n + j];
        a[top * n + j] = t;
      }
      const t = b[k];
      b[k] = b[top];
      b[top] = t;
    }
    for (let i = k + 1; i < n; i++) {
      const part = a[i * n + k] / a[k * n + k];
      if (part === 0) continue;
      for (let j = k + 1; j < n; j++) a[i * n + j] -= part * a[k * n + j];
      b[i] -= part * b[k];
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let j = i + 1; j < n; j++) b[i] -= a[i * n + j] * b[j];
    b[i] = a[i * n + i] === 0 ? 0 : b[i] / a[i * n + i];
  }
}

/**
 * Least squares by Householder reflections: overwrites `a` with R (upper) and `b` with Qt b.
 *
 * @param a rows by cols, row-major, rows at least cols; overwritten
 * @param b length rows; overwritten
 * @param rows number of rows
 * @param cols number of columns
 * @source textbook algorithm (Golub and Van Loan, Matrix Computations, 5.3)
 */
export function householderInPlace(a: Float64Array, b: Float64Array, rows: number, cols: number): void {
  for (let k = 0; k < cols; k++) {
    const norm = columnNorm(a, k, rows, cols);
    if (norm === 0) continue;
    const head = a[k * cols + k];
    const alpha = head > 0 ? -norm : norm;
    const v0 = head - alpha;
    const beta = -1 / (alpha * v0);
    for (let j = k + 1; j < cols; j++) {
      let s = v0 * a[k * cols + j];
      for (let at = (k + 1) * cols; at < rows * cols; at += cols) s += a[at + k] * a[at + j];
      s *= beta;
      a[k * cols + j] -= s * v0;
      for (let at = (k + 1) * cols; at < rows * cols; at += cols) a[at + j] -= s * a[at + k];
    }
    let s = v0 * b[k];
    for (let i = k + 1; i < rows; i++) s += a[i * cols + k] * b[i];
    s *= beta;
    b[k] -= s * v0;
    for (let i = k + 1; i < rows; i++) b[i] -= s * a[i * cols + k];
    a[k * cols + k] = alpha;
  }
}
/** Length of what stands in a column from its own row down, by its largest entry, so that no square leaves the range of numbers. */
function columnNorm(a: Float64Array, k: number, rows: number, cols: number): number {
  let most = 0;
  for (let i = k; i < rows; i++) most = Math.max(most, Math.abs(a[i * cols + k]));
  if (most === 0 || !Number.isFinite(most)) return most;
  let sum = 0;
  for (let i = k; i < rows; i++) {
    const part = a[i * cols + k] / most;
    sum += part * part;
  }
  return most * Math.sqrt(sum);
}

/**
 * Back substitution with the R that `householderInPlace` left; a column without substance gets 0.
 *
 * @param r rows by cols, upper part used
 * @param b right-hand side, first cols used
 * @param cols number of unknowns
 * @returns length cols
 * @source textbook algorithm
 */
export function backSubstitute(r: Float64Array, b: Float64Array, cols: number): Float64Array {
  const x = new Float64Array(cols);
  for (let i = cols - 1; i >= 0; i--) {
    let s = b[i];
    for (let j = i + 1; j < cols; j++) s -= r[i * cols + j] * x[j];
    const d = r[i * cols + i];
    x[i] = d === 0 ? 0 : s / d;
  }
  return x;
}

/**
 * Inverse of Rt R from the R of a factorised Jacobian: the unscaled covariance of the parameters.
 *
 * @param r rows by cols, upper part used
 * @param cols number of unknowns
 * @returns cols by cols, row-major; undefined where R is singular
 * @source textbook identity (Jt J)^-1 = R^-1 R^-t
 */
export function inverseOfNormal(r: Float64Array, cols: number): Float64Array | undefined {
  const inverse = new Float64Array(cols * cols);
  for (let c = 0; c < cols; c++) {
    if (r[c * cols + c] === 0) return undefined;
    for (let i = c; i >= 0; i--) {
      let s = i === c ? 1 : 0;
      for (let j = i + 1; j <= c; j++) s -= r[i * cols + j] * inverse[j * cols + c];
      inverse[i * cols + c] = s / r[i * cols + i];
    }
  }
  const out = new Float64Array(cols * cols);
  for (let i = 0; i < cols; i++)
    for (let j = 0; j < cols; j++) {
      let s = 0;
      for (let k = Math.max(i, j); k < cols; k++) s += inverse[i * cols + k] * inverse[j * cols + k];
      out[i * cols + j] = s;
    }
  return out;
}
