import { type LeastSquaresFit, leastSquares } from "../../numerics/least-squares";
import { choleskyFactor } from "../../numerics/linear";
import { normalStream } from "../../numerics/random";
import { type DescribedStrip, type Leaf, plainStrip } from "../../set/strip";
import { standardUncertainty } from "../../units/quantity";
import { dampedDoubts } from "./damped";
import { missesOf, thinned, type Used } from "./misses";
import { spreadAlong } from "./spread";

/** Whether somebody has turned the slugs since the maker set them. */
export const slugsTouched = ["perhaps", "not", "yes"] as const;
export type SlugsTouched = (typeof slugsTouched)[number];

/** How far the description is trusted: as it stands, but for the slugs, or only for its outline. Spreads beyond it are assumed. */
export interface Trust {
  /** how likely beforehand, by what was said about the slugs */
  readonly chance: Readonly<Record<SlugsTouched, number>>;
  readonly offsetHz: number;
  readonly relative: number;
  /** what k Q of a can is in doubt by beyond what the fit leaves, as a standard deviation of its logarithm */
  readonly productDoubt: number;
  readonly says: string;
}
export const trusts: readonly Trust[] = [
  { chance: { not: 0.9, perhaps: 0.7, yes: 0 }, offsetHz: 0, relative: 0, productDoubt: 0, says: "" },
  {
    chance: { not: 0, perhaps: 0.25, yes: 0.8 },
    offsetHz: 3500,
    relative: 0,
    productDoubt: 0.03,
    says: "the slugs are assumed turned: each may be several kilohertz off",
  },
  {
    chance: { not: 0.1, perhaps: 0.05, yes: 0.2 },
    offsetHz: 3500,
    relative: 0.7,
    // on invented strips whose k Q is known; no source
    productDoubt: 0.7,
    says: "the sweep is not of this strip with sound windings: slugs, Q and coupling are all left wide open, and the k Q found from it is very uncertain; look for a damped winding or an altered coupling",
  },
];
const startsCount = 6;

/** The strip at one trust, brought to the sweep. */
export interface Attempt {
  readonly trust: Trust;
  readonly found: LeastSquaresFit;
  /** covariance of the leaves, each in units of its prior spread */
  readonly spread: () => number[][];
  /** what k Q of each can is in doubt by beyond the fit, as a standard deviation of its logarithm */
  readonly productDoubts: () => ReadonlyMap<string, number>;
  readonly priorU: readonly number[];
  readonly leafValue: (i: number, z: number) => number;
  /** residuals over their noise, by frequency */
  readonly rest: Float64Array;
  readonly rmsDb: number;
  readonly logChance: number;
}
/** The strip at one trust, looked at on few points: how likely that is so far, and the rest of the work where it may matter. */
export interface Outlook {
  readonly logChance: number;
  readonly finish: () => Attempt | undefined;
}
/**
 * Least squares of leaves and level at one trust, from several starts where the slugs are free.
 *
 * @param strip as described
 * @param leaves those that are fitted; positive ones by their logarithm
 * @param used points of the sweep, Hz and dB, with weights
 * @param trust how far the description is trusted
 * @param said whether the slugs were touched
 * @returns how likely the trust is so far, and the rest of the work; undefined where no start comes to an end
 * @source maximum a posteriori by damped least squares, each prior one more residual (numerics/least-squares.ts); the trusts are weighed by their evidence, Laplace approximation
 */
export function attempt(strip: DescribedStrip, leaves: readonly Leaf[], used: Used, trust: Trust, said: SlugsTouched): Outlook | undefined {
  const { hz, weights } = used;
  const n = leaves.length;
  const model = plainStrip(strip);
  const logarithmic = leaves.map((l) => l.positive && l.quantity.value > 0);
  const scale = strip.intermediateFrequency.value / 455e3;
  const priorU = leaves.map((l, i) => {
    const u = standardUncertainty(l.quantity.spread) / (logarithmic[i] ? l.quantity.value : 1);
    if (/Offset$/.test(l.path)) return Math.max(u, trust.offsetHz * scale);
    return /(Q|coupling)$/.test(l.path) ? Math.max(u, trust.relative) : u;
  });
  const leafValue = (i: number, z: number): number =>
    logarithmic[i] ? leaves[i].quantity.value * Math.exp(z * priorU[i]) : leaves[i].quantity.value + z * priorU[i];
  const misses = (points: Used): Misses => ({ rows: points.hz.length + n, residuals: missesOf(model, leaves, points, leafValue) });
  const starts = Array.from({ length: trust.offsetHz > 0 ? startsCount : 1 }, (_, k) => {
    const from = k === 0 ? new Float64Array(n) : normalStream(k, "slugs", n);
    return Float64Array.from({ length: n + 1 }, (__, i) => (i < n && /Offset$/.test(leaves[i].path) ? from[i] : 0));
  });
  const few = misses(thinned(used, searchPoints));
  const ends = searched(starts, few);
  if (ends.length === 0) return undefined;
  const chance = (found: LeastSquaresFit): number => Math.log(trust.chance[said]) + evidence(found, n);
  const finish = (): Attempt | undefined => {
    const whole = misses(used);
    const found = ended(ends, whole);
    if (!found) return undefined;
    const out = new Float64Array(hz.length + n);
    whole.residuals(found.p, out);
    const rest = out.slice(0, hz.length);
    const rmsDb = Math.sqrt(rest.reduce((s, r, p) => s + (r / weights[p]) ** 2, 0) / hz.length);
    const spread = (): number[][] => spreadAlong(found, n, { ...whole, weights });
    const productDoubts = (): ReadonlyMap<string, number> => {
      const damped = trust.relative > 0 ? dampedDoubts(found, leaves, priorU, few) : undefined;
      return new Map(strip.cans.map((_, k) => [`can${k + 1}`, Math.hypot(trust.productDoubt, damped?.get(`can${k + 1}`) ?? 0)]));
    };
    return { trust, found, spread, productDoubts, priorU, leafValue, rest, rmsDb, logChance: chance(found) };
  };
  return { logChance: chance(ends[0]), finish };
}
interface Misses {
  readonly residuals: (z: Float64Array, out: Float64Array) => void;
  readonly rows: number;
}
/** So many points are enough to tell one valley of the cost from another. */
const searchPoints = 60;
/** After so many steps only the best starts go on: house rule, no source. */
const firstSteps = 8;
const goOn = 4;

const run = (on: Misses, start: Float64Array, iterations: number, enoughRatio: number): LeastSquaresFit =>
  leastSquares({
    ...on,
    start,
    scale: new Float64Array(start.length).fill(1),
    coarse: true,
    pinned: true,
    iterations,
    enoughRatio,
    low: new Float64Array(start.length).fill(-8),
    high: new Float64Array(start.length).fill(8),
  });
const byCost = (fits: readonly LeastSquaresFit[]): LeastSquaresFit[] => fits.filter((f) => f.normalInverse).sort((a, b) => a.cost - b.cost);
/** Ends of the search on few points, the least cost first: a few steps of each start, and the best of them further. Ends of one cost are one. */
function searched(starts: readonly Float64Array[], few: Misses): LeastSquaresFit[] {
  const begun = byCost(starts.map((start) => run(few, start, firstSteps, 1e-3)));
  const further = starts.length > 1 ? byCost(begun.slice(0, goOn).map((f) => run(few, f.p, 40, 1e-3))) : begun;
  return further.filter((f, i) => i === 0 || f.cost - further[i - 1].cost > 0.1);
}
/** The least cost on all points: ends on few of them may change places there. */
function ended(ends: readonly LeastSquaresFit[], all: Misses): LeastSquaresFit | undefined {
  const near = ends.length > 1 ? byCost(ends.map((f) => run(all, f.p, 3, 1e-3))) : ends;
  return byCost(near.slice(0, 1).map((f) => run(all, f.p, 60, 1e-6)))[0];
}
/** Logarithm of the evidence about the best place, but for what all trusts share. Source: Laplace's approximation, textbook. */
function evidence(found: LeastSquaresFit, n: number): number {
  const c = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) c[i * n + j] = found.normalInverse?.[i * (n + 1) + j] ?? 0;
  const factor = choleskyFactor(c, n);
  let log = -found.cost / 2;
  for (let i = 0; i < n; i++) log += Math.log(Math.max(1e-12, factor?.[i * n + i] ?? 1));
  return log;
}
