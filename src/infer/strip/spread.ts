import type { LeastSquaresFit } from "../../numerics/least-squares";
import { symmetricEigen } from "../../numerics/symmetric-eigen";

/** What a fit misses by: residuals over their noise, of the readings first. */
interface Misses {
  readonly residuals: (z: Float64Array, out: Float64Array) => void;
  /** of the readings alone */
  readonly weights: Float64Array;
}
/** So many standard deviations off, the cost is to have risen by their square. House rule, no source. */
const looksAt = 1.5;

/**
 * Covariance of the leaves by how the cost rises along each direction that the linear one has: two slugs that stand together may part either way and
 * change nothing to first order, yet soon broaden the response.
 *
 * @param found the fit: leaves in units of their prior spread, then the level in tens of dB
 * @param n leaves
 * @param misses the fit's own residuals, its prior counted
 * @returns n by n
 * @source profile of the likelihood along a direction, the level set anew at each step; coverage in docs/proof-fits.md
 */
export function spreadAlong(found: LeastSquaresFit, n: number, { residuals, weights }: Misses): number[][] {
  const c = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (__, j) => found.normalInverse?.[i * (n + 1) + j] ?? 0));
  const out = new Float64Array(weights.length + n);
  const z = Float64Array.from(found.p);
  const levelWeight = weights.reduce((s, w) => s + w * w, 0);
  const costAt = (v: Float64Array, t: number): number => {
    for (let i = 0; i < n; i++) z[i] = found.p[i] + t * v[i];
    residuals(z, out);
    let [square, level] = [0, 0];
    for (let i = 0; i < out.length; i++) {
      square += out[i] ** 2;
      if (i < weights.length) level += weights[i] * out[i];
    }
    return square - level ** 2 / levelWeight;
  };
  const { values, vectors } = symmetricEigen(c);
  const base = costAt(new Float64Array(n), 0);
  const sizes = values.map((value, k) => {
    const rise = (t: number): number => costAt(vectors[k], t) - base;
    const u = Math.sqrt(Math.max(0, value));
    // no direction ends up wider than it was beforehand
    return Math.min(1, (risesAt(rise, looksAt * u, 1) + risesAt(rise, looksAt * u, -1)) / 2 / looksAt);
  });
  return c.map((row, i) => row.map((_, j) => vectors.reduce((s, v, k) => s + sizes[k] ** 2 * v[i] * v[j], 0)));
}
/** Where the cost has risen enough on one side, twice as far as expected at most: a parabola through the base tells where, anew until it stays. */
function risesAt(rise: (t: number) => number, expected: number, side: 1 | -1): number {
  let t = expected;
  for (let i = 0; i < 6; i++) {
    const risen = rise(side * t);
    // a cost that can't be worked out is beyond any rise
    const next = Number.isFinite(risen) ? Math.min(2 * expected, t * Math.sqrt(looksAt ** 2 / Math.max(risen, 1e-12))) : t / 4;
    const stays = Math.abs(next - t) <= 0.01 * t;
    t = next;
    if (stays) break;
  }
  return t;
}
