import { type LeastSquaresFit, leastSquares } from "../../numerics/least-squares";
import type { Leaf } from "../../set/strip";

interface Misses {
  readonly residuals: (z: Float64Array, out: Float64Array) => void;
  readonly rows: number;
}
/** A winding that something damps may have a tenth of its Q: its prior spread is so many times the others', and it is tried from a tenth. */
export const dampedRatio = 3;
const triedAt = Math.log(1 / 10);
const steps = 20;

/**
 * By how much k Q of each can would be another if one winding were damped: what one sweep leaves open where nothing else is held either.
 *
 * @param found the fit: leaves in units of their prior spread, then the level
 * @param leaves its leaves
 * @param priorU prior spreads, of logarithms
 * @param on its residuals, few points of the sweep being enough
 * @returns for each can by its name the standard deviation of ln(k Q) about the fit, each damped winding weighed by how well it explains the sweep
 * @source profile over the damped winding, weights of the likelihood; coverage in docs/proof-fits.md
 */
export function dampedDoubts(
  found: LeastSquaresFit,
  leaves: readonly Leaf[],
  priorU: readonly number[],
  on: Misses,
): ReadonlyMap<string, number> {
  const n = leaves.length;
  const end = (start: Float64Array, loose?: number): LeastSquaresFit =>
    leastSquares({
      rows: on.rows,
      residuals: (z, out) => {
        on.residuals(z, out);
        if (loose !== undefined) out[on.rows - n + loose] /= dampedRatio;
      },
      start,
      scale: new Float64Array(n + 1).fill(1),
      coarse: true,
      pinned: true,
      iterations: steps,
      enoughRatio: 1e-3,
      low: new Float64Array(n + 1).fill(-8),
      high: new Float64Array(n + 1).fill(8),
    });
  const base = end(found.p);
  const ends = leaves.flatMap((l, i) => {
    if (!/Q$/.test(l.path) || !/^strip\.can/.test(l.path)) return [];
    const start = Float64Array.from(base.p);
    start[i] = Math.max(-8, start[i] + triedAt / priorU[i]);
    const other = end(start, i);
    return [{ p: other.p, weight: Math.exp(Math.min(20, (base.cost - other.cost) / 2)) }];
  });
  const total = ends.reduce((s, e) => s + e.weight, 1);
  const product = (z: Float64Array, can: string): number =>
    leaves.reduce(
      (s, l, i) =>
        s + (l.path === `strip.${can}.coupling` ? 1 : l.path.startsWith(`strip.${can}.`) && /Q$/.test(l.path) ? 0.5 : 0) * z[i] * priorU[i],
      0,
    );
  const cans = [...new Set(leaves.flatMap((l) => /^strip\.(can\d+)\./.exec(l.path)?.[1] ?? []))];
  return new Map(
    cans.map((can) => [can, Math.sqrt(ends.reduce((s, e) => s + e.weight * (product(e.p, can) - product(base.p, can)) ** 2, 0) / total)]),
  );
}
