import { judgeMisfit, type Misfit } from "../../numerics/misfit";
import { StripResponse } from "../../physics/if-strip";
import { peakOf, widthHz } from "../../physics/passband";
import { type DescribedStrip, type Leaf, plainStrip, setStripLeaf, stripLeaves } from "../../set/strip";
import type { Estimate } from "../../units/draws";
import { bad, good, type Read } from "../../units/issue";
import { type Quantity, standardUncertainty } from "../../units/quantity";
import { type Attempt, attempt, type Outlook, type SlugsTouched, trusts } from "./attempt";
import { dampedRatio } from "./damped";
import { floorDb, type StripSweep, usedOf } from "./points-used";
import { combinations, directions, widenProducts } from "./told";

export interface LeafTold {
  readonly path: string;
  readonly dimension: Leaf["dimension"];
  readonly before: Quantity;
  readonly after: Quantity;
  /** standard uncertainty after over before: near 1 means that the sweep says nothing about it */
  readonly leftRatio: number;
}
export interface StripFit {
  readonly estimate: Estimate;
  readonly values: Readonly<Record<string, Quantity>>;
  readonly leaves: readonly LeafTold[];
  /** combinations that the sweep does tell, by can: k sqrt(Q1 Q2) of the windings alone, relative standard uncertainty before and after */
  readonly combinations: readonly {
    readonly name: string;
    readonly value: number;
    readonly beforeRatio: number;
    readonly afterRatio: number;
  }[];
  /** independent directions of the leaves that the sweep tells better than half of what was known before */
  readonly directionsCount: number;
  readonly misfit: Misfit;
  readonly rmsDb: number;
  readonly iterations: number;
  readonly usedPoints: number;
  readonly warnings: readonly string[];
}

/** A sweep that misses by more than this is of something else. Assumed. */
const farDb = 1.5;

/** Less likely by this on few points, in logarithms, a trust is not followed to its end: those overrate the wide ones. House rule, no source. */
const unlikelyLog = 6;
/** A wider trust is taken as long as it is at least this likely. House rule, no source. */
const leastChance = 0.05;

/**
 * Fits a strip's model to a sweep of it: every uncertain leaf, each with its stated value and spread as prior; the level of the sweep is free.
 *
 * Slugs that somebody turned are a possibility of their own, with wide spreads; so is a strip whose Q and coupling were altered. Each is weighed by its
 * evidence, and the widest that keeps a chance of 5 % is taken. Positive leaves are fitted in their logarithm. Directions that the sweep cannot tell keep
 * their prior spread, so the estimate covers all leaves. The covariance is widened by the rule of misfits, and k Q of a can besides by what its trust
 * is in doubt by beyond the fit.
 *
 * @param strip as described, with priors
 * @param sweep frequencies and levels, at least 20 points within 50 dB of the peak
 * @param id id of the estimate
 * @param fromReadings ids of the readings it rests on
 * @param slugs whether they have been touched
 * @returns the estimate and what it tells, or why there is none
 * @source Bayesian least squares (maximum a posteriori; covariance by the cost's own rise along each direction); identifiability checked in fit-strip.property.test.ts, coverage
 *   on strips of other circuits in docs/proof-fits.md
 */
export function fitStrip(
  strip: DescribedStrip,
  sweep: StripSweep,
  id: string,
  fromReadings: readonly string[],
  slugs: SlugsTouched = "perhaps",
): Read<StripFit> {
  const leaves = stripLeaves(strip).filter((l) => standardUncertainty(l.quantity.spread) > 0 && !isScale(l.path));
  const read = usedOf(strip, sweep);
  if (!read.ok) return read;
  const used = read.value;
  const looked = trusts.flatMap((t) => (t.chance[slugs] > 0 ? (attempt(strip, leaves, used, t, slugs) ?? []) : []));
  const taken = widestLikely(looked);
  if (!taken) return bad("sweep", "no-fit", "no end to the search", "a sweep that this strip can give");
  const spread = taken.spread();
  const told = leaves.reduce((s, _, i) => s + Math.max(0, 1 - spread[i][i]), 0);
  const misfit = judgeMisfit({ residuals: taken.rest, noise: 1, noiseDoubt: 0.25, parameters: Math.min(told, used.hz.length / 2) });
  const refused = refusalOf(taken, misfit);
  if (refused) return refused;
  const { priorU, leafValue, found } = taken;
  const covariance = covarianceOf(leaves, taken, spread, misfit);
  const values = leaves.map((_, i) => leafValue(i, found.p[i]));
  const estimate: Estimate = {
    id,
    names: leaves.map((l) => l.path),
    values,
    logarithmic: leaves.map((l) => l.positive && l.quantity.value > 0),
    covariance,
    fromReadings: [...fromReadings],
    model: "if-strip@2",
  };
  const after = leaves.map((_, i) => quantityOf(estimate, i));
  return good({
    estimate,
    values: Object.fromEntries(leaves.map((l, i) => [l.path, after[i]])),
    leaves: leaves.map(({ path, dimension, quantity }, i) => ({
      path,
      dimension,
      before: quantity,
      after: after[i],
      leftRatio: Math.sqrt(covariance[i][i]) / priorU[i],
    })),
    combinations: combinations(strip, leaves, values, covariance, priorU),
    directionsCount: directions(covariance, priorU),
    misfit,
    rmsDb: taken.rmsDb,
    iterations: found.iterations,
    usedPoints: used.hz.length,
    warnings: oddOf(leaves, taken, misfit, sweep.levelDb.length - used.hz.length),
  });
}

/** The strip at the widest trust that keeps a chance of 5 %; undefined where no search comes to an end. */
function widestLikely(looked: readonly Outlook[]): Attempt | undefined {
  const likeliest = Math.max(...looked.map((l) => l.logChance));
  const tried = looked.flatMap((l) => (l.logChance > likeliest - unlikelyLog ? (l.finish() ?? []) : []));
  const best = Math.max(...tried.map((t) => t.logChance));
  const sum = tried.reduce((s, t) => s + Math.exp(t.logChance - best), 0);
  return [...tried].reverse().find((t) => Math.exp(t.logChance - best) / sum >= leastChance) ?? tried[0];
}

/** Why a strip brought as near to a sweep as it comes is not told by it. */
function refusalOf({ rmsDb }: Attempt, misfit: Misfit): ReturnType<typeof bad> | undefined {
  if (rmsDb > farDb)
    return bad(
      "sweep",
      "not-this-strip",
      `${rmsDb.toFixed(1)} dB rms off`,
      `a sweep that this strip can give to within ${farDb} dB; read it in as a plain sweep, or mend the set's description`,
    );
  if (misfit.verdict === "law-fails")
    return bad(
      "sweep",
      "no-law",
      `misses of ${misfit.timesNoise.toFixed(1)} times the noise`,
      "a sweep that this strip can give: a strip near oscillation, or with coupling round its cans, can't be fitted; read it in as a plain sweep",
    );
  return undefined;
}

/** Covariance of the leaves, widened by what the misses say and by what the trust leaves in doubt. A direction never ends up wider than its prior. */
function covarianceOf(leaves: readonly Leaf[], taken: Attempt, spread: readonly (readonly number[])[], misfit: Misfit): number[][] {
  const { priorU } = taken;
  const c = (i: number, j: number): number => spread[i][j];
  const grow = (i: number): number => Math.max(1, Math.min(misfit.widenRatio, 1 / Math.sqrt(Math.max(c(i, i), 1e-30))));
  const fitted = leaves.map((_, i) => leaves.map((__, j) => c(i, j) * priorU[i] * priorU[j] * grow(i) * grow(j)));
  const most = taken.trust.relative > 0 ? priorU.map((u) => dampedRatio * u) : priorU;
  return widenProducts(leaves, fitted, most, taken.productDoubts());
}

const quantityOf = ({ id, values, covariance, logarithmic }: Estimate, i: number): Quantity => ({
  value: values[i],
  spread: { shape: "normal", u: Math.sqrt(covariance[i][i]) * (logarithmic[i] ? values[i] : 1) },
  origin: "fitted",
  source: `fit ${id}`,
  joint: id,
});

/** What is odd about a fit. */
function oddOf(leaves: readonly Leaf[], { trust, found }: Attempt, misfit: Misfit, leftOutCount: number): string[] {
  const far = leaves.filter((_, i) => Math.abs(found.p[i]) > 3);
  const misses = misfit.patterned ? "in a pattern" : `by ${misfit.timesNoise.toFixed(1)} times its noise`;
  return [
    ...(leftOutCount > 0 ? [`${leftOutCount} points more than ${floorDb} dB down are left out: strays rule there`] : []),
    ...(trust.says ? [trust.says] : []),
    ...(misfit.verdict === "widen"
      ? [`the model misses the sweep ${misses}: intervals are widened ${misfit.widenRatio.toFixed(1)} times`]
      : []),
    ...(far.length > 0
      ? [`${far.map((l) => l.path).join(", ")} moved more than three of its stated standard uncertainties: check the description`]
      : []),
  ];
}

/**
 * Width of a fitted strip at a level under its peak.
 *
 * @param strip as described before the fit
 * @param fit the fit
 * @param levelDb level under the peak, dB, positive
 * @returns Hz; NaN where a side does not reach the level
 * @source definition of bandwidth at a level
 */
export function fittedWidthHz(strip: DescribedStrip, fit: StripFit, levelDb: number): number {
  const model = plainStrip(strip);
  for (const [i, path] of fit.estimate.names.entries()) setStripLeaf(model, path, fit.estimate.values[i]);
  const response = new StripResponse(model);
  return widthHz(response, peakOf(response, [model.intermediateFrequency]), levelDb);
}

/** Leaves that only scale the whole response: a relative sweep says nothing of them, and they do not bend it. */
const isScale = (path: string): boolean => path.endsWith(".transconductance");
