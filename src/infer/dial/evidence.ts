import { normalEquations, posterior } from "../../numerics/bayes-linear";
import type { Conversion } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { type DialAssumed, design, prepared, sizes, variances } from "./frame";
import { dialTerms } from "./scaling";

/**
 * How well one law explains zero beats, as the logarithm of the evidence over a coarse grid; and, where the scale is thought to have slipped by an
 * unknown amount from some point on, by how much. Comparable between labels and slips of the same readings.
 *
 * @param points zero beats in the order in which they were taken
 * @param conversion IF and side of the oscillator
 * @param assumed noise and backlash to expect
 * @param how first point after a slip, none where it is not given; and whether the law bends by less than a division only, so that what it misses is scatter
 * @returns evidence, and the slip in divisions; undefined where no law goes through the points
 * @source Bayesian model comparison, Rasmussen and Williams (2006) 5.4; readings are what is random, hence the slopes
 */
export function evidenceOf(
  points: readonly DialPoint[],
  conversion: Conversion,
  assumed: DialAssumed,
  { slippedFrom, stiff }: { readonly slippedFrom?: number; readonly stiff?: boolean } = {},
): { readonly log: number; readonly slipDiv: number } | undefined {
  const ready = prepared(points, conversion, assumed);
  if (!ready.ok) return undefined;
  const { scaling, z, slopes, typical } = ready.value;
  const rows = design(points, slopes, scaling).map((r, i) => {
    if (slippedFrom === undefined) return r;
    const longer = new Float64Array(dialTerms + 1);
    longer.set(r);
    longer[dialTerms] = i >= slippedFrom ? -slopes[i] : 0;
    return longer;
  });
  const target = points.map((p, i) => z[i] + 0.5 * p.approach * slopes[i] * assumed.backlash);
  const g = normalEquations(rows, target, variances(points, ready.value, assumed.readingNoise, assumed));
  const jacobian = slopes.reduce((s, v) => s + Math.log(Math.abs(v)), 0);
  const { division = 1 } = assumed;
  let best: { log: number; slipDiv: number } | undefined;
  for (const amplitude of stiff ? stiffBends : [...stiffBends, 1, 3])
    for (const length of [0.6, 2.4]) {
      const size = new Float64Array(g.size);
      size.set(sizes(length, amplitude * typical * division, assumed.backlashU));
      if (slippedFrom !== undefined) size[dialTerms] = slipSizeDiv * division;
      const p = posterior(g, size);
      if (p && (!best || p.log + jacobian > best.log))
        best = { log: p.log + jacobian, slipDiv: slippedFrom === undefined ? 0 : p.mean[dialTerms] * size[dialTerms] };
    }
  return best;
}
/** sizes of a bend that a law has without its readings' scatter, hundredths of a scale */
export const stiffBends = [0.1, 0.3];
/** a slip of a few divisions is what a cord or a pointer does, common practice, no source */
const slipSizeDiv = 2;
