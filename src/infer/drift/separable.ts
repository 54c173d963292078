import { leastSquares } from "../../numerics/least-squares";
import { backSubstitute, householderInPlace, inverseOfNormal } from "../../numerics/linear";
import { type DriftLog, lineAlone } from "../../readings/drift-log";

/** What given time constants leave of a log, all else solved. */
export interface Solved {
  /** end over the mean, amplitudes, line slope where there is one */
  readonly x: Float64Array;
  /** sum of squares of the rest */
  readonly rss: number;
  readonly rest: Float64Array;
}
type Times = readonly number[];

/** A log of which everything but time constants is linear. Source: variable projection (Golub and Pereyra 1973, from memory). */
export class SeparableLog {
  readonly n: number;
  readonly untilS: number;
  readonly meanHz: number;
  /** volts over their mean; undefined where they were not logged or did not move */
  readonly line: Float64Array | undefined;
  /** columns that are there whatever the time constants: end, and line */
  readonly fixed: number;
  private readonly timeS: Float64Array;
  private readonly y: Float64Array;

  constructor({ timeS, hz, lineV }: DriftLog) {
    this.timeS = timeS;
    this.n = timeS.length;
    this.untilS = timeS[this.n - 1];
    this.meanHz = hz.reduce((s, v) => s + v, 0) / this.n;
    this.y = hz.map((v) => v - this.meanHz);
    this.line = lineAlone({ timeS, hz, ...(lineV ? { lineV } : {}) });
    this.fixed = this.line ? 2 : 1;
  }

  private design(tau: Times): Float64Array {
    const { n, timeS, line } = this;
    const cols = this.fixed + tau.length;
    const a = new Float64Array(n * cols);
    for (let i = 0; i < n; i++) {
      a[i * cols] = 1;
      tau.forEach((t, k) => {
        a[i * cols + 1 + k] = Math.exp(-timeS[i] / t);
      });
      if (line) a[i * cols + cols - 1] = line[i];
    }
    return a;
  }

  /** Everything else at given time constants. */
  solve(tau: Times): Solved {
    const { n, y } = this;
    const cols = this.fixed + tau.length;
    const a = this.design(tau);
    const rest = y.slice();
    const work = a.slice();
    const b = y.slice();
    householderInPlace(work, b, n, cols);
    const x = backSubstitute(work, b, cols);
    let rss = 0;
    for (let i = 0; i < n; i++) {
      for (let c = 0; c < cols; c++) rest[i] -= a[i * cols + c] * x[c];
      rss += rest[i] ** 2;
    }
    return { x, rss: Number.isFinite(rss) ? rss : Number.POSITIVE_INFINITY, rest };
  }

  /** The best one and the best two time constants, s, rising: the best of a grid, brought to the least sum of squares. */
  best(): { readonly one: Times; readonly two: Times } {
    const { n, timeS, untilS } = this;
    const step = Math.max(untilS / 400, (timeS[n - 1] - timeS[0]) / n / 2);
    const grid = Array.from({ length: 28 }, (_, i) => step * ((4 * untilS) / step) ** (i / 27));
    const least = (tries: readonly Times[]): Times => tries.reduce((b, t) => (this.solve(t).rss < this.solve(b).rss ? t : b));
    const one = this.refined(least(grid.map((t) => [t])), step);
    const pairs = grid.flatMap((f, i) => grid.slice(i + 3).map((s) => [f, s]));
    return { one, two: [...this.refined(least(pairs), step)].sort((p, q) => p - q) };
  }

  private refined(start: Times, step: number): Times {
    const found = leastSquares({
      rows: this.n,
      start: start.map(Math.log),
      low: start.map(() => Math.log(step / 4)),
      high: start.map(() => Math.log(20 * this.untilS)),
      residuals: (p, out) => {
        out.set(this.solve(Array.from(p, Math.exp)).rest);
      },
    });
    return Array.from(found.p, Math.exp);
  }

  /** Inverse of the normal matrix of everything, time constants by their logarithms; undefined where the log does not tell it. */
  normalInverse(tau: Times, amplitudes: readonly number[]): Float64Array | undefined {
    const { n, timeS, line, fixed } = this;
    const cols = fixed + 2 * tau.length;
    const jacobian = new Float64Array(n * cols);
    for (let i = 0; i < n; i++) {
      jacobian[i * cols] = 1;
      tau.forEach((t, k) => {
        const e = Math.exp(-timeS[i] / t);
        jacobian[i * cols + 1 + k] = e;
        jacobian[i * cols + fixed + tau.length + k] = (amplitudes[k] * e * timeS[i]) / t;
      });
      if (line) jacobian[i * cols + 1 + tau.length] = line[i];
    }
    householderInPlace(jacobian, new Float64Array(n), n, cols);
    return inverseOfNormal(jacobian, cols);
  }
}
