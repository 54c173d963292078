import { normalStream } from "./random";

export interface Smooth {
  /** mean of all curves that the readings leave possible */
  readonly values: Float64Array;
  /** standard deviation of one reading about the curve */
  readonly sigma: number;
  /** the k-th of `count` curves that the readings leave possible, each as likely as the next */
  readonly draw: (k: number, count: number) => Float64Array;
  /** mean curve of other readings at the same places */
  readonly again: (y: Float64Array) => Float64Array;
}
/** The penalty is on differences of this order; these are their weights. */
const order = 3;
const differences = [-1, 3, -3, 1];
interface Solver {
  readonly lambda: number;
  readonly solve: (y: Float64Array) => Float64Array;
  /** of the transposed factor alone: of standard normals it makes draws whose covariance is the inverse */
  readonly half: (z: Float64Array) => Float64Array;
  /** logarithm of the factor's determinant */
  readonly logDet: number;
}
/** Factor of I + lambda D3'D3, lower band of three, and its solves. */
function solverOf(n: number, lambda: number): Solver {
  const band = Array.from({ length: order + 1 }, () => new Float64Array(n));
  band[0].fill(1);
  for (let r = 0; r + order < n; r++)
    for (let a = 0; a <= order; a++) for (let b = 0; b <= a; b++) band[a - b][r + a] += lambda * differences[a] * differences[b];
  // band[k][i] is the entry at row i, column i - k; Cholesky in place
  for (let i = 0; i < n; i++) {
    for (let k = Math.min(order, i); k >= 0; k--) {
      let s = band[k][i];
      for (let j = 1; j + k <= order && i - k - j >= 0; j++) s -= band[k + j][i] * band[j][i - k];
      band[k][i] = k > 0 ? s / band[0][i - k] : Math.sqrt(s);
    }
  }
  const [d0, d1, d2, d3] = band;
  const back = (x: Float64Array): Float64Array => {
    for (let i = n - 1; i >= 0; i--) {
      if (i + 1 < n) x[i] -= d1[i + 1] * x[i + 1];
      if (i + 2 < n) x[i] -= d2[i + 2] * x[i + 2];
      if (i + 3 < n) x[i] -= d3[i + 3] * x[i + 3];
      x[i] /= d0[i];
    }
    return x;
  };
  const half = (z: Float64Array): Float64Array => back(z.slice());
  const solve = (y: Float64Array): Float64Array => {
    const x = y.slice();
    for (let i = 0; i < n; i++) {
      if (i > 0) x[i] -= d1[i] * x[i - 1];
      if (i > 1) x[i] -= d2[i] * x[i - 2];
      if (i > 2) x[i] -= d3[i] * x[i - 3];
      x[i] /= d0[i];
    }
    return back(x);
  };
  return { lambda, solve, half, logDet: band[0].reduce((t, d) => t + Math.log(d), 0) };
}
/** How much is smoothed: factors of the penalty, two a decade. */
const lambdas = Array.from({ length: 27 }, (_, k) => 10 ** (-2 + k / 2));

/**
 * Smooths readings at even places by a penalty on third differences. How much is not chosen but weighed: each amount by how likely it makes the readings,
 * the scatter of one reading left open too. What is told are the curves that remain possible, and their mean.
 *
 * @param y readings, at least 8
 * @returns mean curve, scatter of one reading, and draws of the curve
 * @source Whittaker, Proc. Edinburgh Math. Soc. 41 (1923) 63; the curve's distribution by Wahba, J. Roy. Statist. Soc. B 45 (1983) 133, the weight of each
 *   amount by Wahba, Annals of Statistics 13 (1985) 1378 (generalised maximum likelihood); all from memory, checked in whittaker.test.ts
 */
export function smoothed(y: Float64Array): Smooth {
  const n = y.length;
  const free = n - order;
  const solvers = lambdas.map((lambda) => solverOf(n, lambda));
  const weigh = (of: Float64Array): readonly Weighed[] => {
    // about their mean, so that a level far from zero costs no digits
    const base = of.reduce((t, v) => t + v, 0) / n;
    const about = of.map((v) => v - base);
    const tried = solvers.map(({ lambda, solve, half, logDet }) => {
      const values = solve(about);
      for (let i = 0; i < n; i++) values[i] += base;
      let left = Number.MIN_VALUE;
      for (let i = 0; i < n; i++) left += (of[i] - values[i]) ** 2;
      for (let r = 0; r + order < n; r++) left += lambda * (3 * values[r + 1] - values[r] - 3 * values[r + 2] + values[r + 3]) ** 2;
      return { half, values, sigma: Math.sqrt(left / free), log: (free / 2) * (Math.log(lambda) - Math.log(left)) - logDet };
    });
    const most = Math.max(...tried.map((t) => t.log));
    const total = tried.reduce((t, { log }) => t + Math.exp(log - most), 0);
    return tried.map(({ half, values, sigma, log }) => ({ half, values, sigma, weight: Math.exp(log - most) / total }));
  };
  const tried = weigh(y);
  const draw = (k: number, count: number): Float64Array => {
    let [at, below] = [0, tried[0].weight];
    while (at + 1 < tried.length && below < (k + 0.5) / count) below += tried[++at].weight;
    const { half, values, sigma } = tried[at];
    const z = normalStream(1, `curve ${k}`, n);
    const chi = normalStream(1, `scatter ${k}`, free).reduce((t, x) => t + x * x, 0);
    const scatter = sigma * Math.sqrt(free / chi);
    return half(z).map((x, i) => values[i] + scatter * x);
  };
  return { values: meanOf(tried), sigma: tried.reduce((t, x) => t + x.weight * x.sigma, 0), draw, again: (of) => meanOf(weigh(of)) };
}
interface Weighed {
  readonly half: (z: Float64Array) => Float64Array;
  readonly values: Float64Array;
  readonly sigma: number;
  readonly weight: number;
}
function meanOf(tried: readonly Weighed[]): Float64Array {
  const mean = new Float64Array(tried[0].values.length);
  for (const { weight, values } of tried) for (let i = 0; i < mean.length; i++) mean[i] += weight * values[i];
  return mean;
}
