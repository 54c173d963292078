import { uniformStream } from "./random";

export interface Smooth {
  readonly values: Float64Array;
  /** standard deviation of what it leaves, per degree of freedom */
  readonly sigma: number;
  /** the same smoothing of other readings at the same places */
  readonly again: (y: Float64Array) => Float64Array;
}
const probesCount = 6;
/** Factor of I + lambda D3'D3, lower band of three, and its solve. */
function solverOf(n: number, lambda: number): (y: Float64Array) => Float64Array {
  const d = [-1, 3, -3, 1];
  const band = Array.from({ length: 4 }, () => new Float64Array(n));
  band[0].fill(1);
  for (let r = 0; r + 3 < n; r++) for (let a = 0; a < 4; a++) for (let b = 0; b <= a; b++) band[a - b][r + a] += lambda * d[a] * d[b];
  // band[k][i] is the entry at row i, column i - k; Cholesky in place
  for (let i = 0; i < n; i++) {
    for (let k = Math.min(3, i); k >= 0; k--) {
      let s = band[k][i];
      for (let j = 1; j + k <= 3 && i - k - j >= 0; j++) s -= band[k + j][i] * band[j][i - k];
      band[k][i] = k > 0 ? s / band[0][i - k] : Math.sqrt(s);
    }
  }
  return (y) => {
    const x = y.slice();
    for (let i = 0; i < n; i++) {
      for (let k = 1; k <= Math.min(3, i); k++) x[i] -= band[k][i] * x[i - k];
      x[i] /= band[0][i];
    }
    for (let i = n - 1; i >= 0; i--) {
      for (let k = 1; k <= 3 && i + k < n; k++) x[i] -= band[k][i + k] * x[i + k];
      x[i] /= band[0][i];
    }
    return x;
  };
}

/**
 * Smooths readings at even places by a penalty on third differences; how much is chosen by generalised cross-validation.
 *
 * @param y readings, at least 8
 * @returns smoothed values, the scatter that they leave, and the same smoothing for other readings
 * @source Whittaker, Proc. Edinburgh Math. Soc. 41 (1923) 63; choice by Craven and Wahba, Numerische Mathematik 31 (1979) 377, trace by random probes;
 *   both from memory, checked in whittaker.test.ts
 */
export function smoothed(y: Float64Array): Smooth {
  const n = y.length;
  const probes = Array.from({ length: probesCount }, (_, k) => uniformStream(1, `probe ${k}`, n).map((u) => (u < 0.5 ? -1 : 1)));
  const at = (power: number): Smooth & { readonly score: number } => {
    const again = solverOf(n, 10 ** power);
    const values = again(y);
    const rss = y.reduce((s, v, i) => s + (v - values[i]) ** 2, 0);
    const trace = probes.reduce((s, p) => s + again(p).reduce((t, v, i) => t + v * p[i], 0), 0) / probesCount;
    const free = Math.max(1, n - trace);
    return { values, sigma: Math.sqrt(rss / free), again, score: rss / free ** 2 };
  };
  const tried = Array.from({ length: 19 }, (_, k) => at(-1 + k / 2));
  return tried.reduce((b, t) => (t.score < b.score ? t : b));
}
