import { type LeastSquaresFit, leastSquares } from "../../numerics/least-squares";
import { choleskyFactor } from "../../numerics/linear";
import { normalStream } from "../../numerics/random";
import { StripResponse } from "../../physics/if-strip";
import { type DescribedStrip, type Leaf, plainStrip, stripSlot } from "../../set/strip";
import { standardUncertainty } from "../../units/quantity";
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
    says: "the slugs are taken as turned: each may be several kilohertz off",
  },
  {
    chance: { not: 0.1, perhaps: 0.05, yes: 0.2 },
    offsetHz: 3500,
    relative: 0.7,
    // on invented strips whose k Q is known; no source
    productDoubt: 0.7,
    says: "the sweep is not of this strip with sound windings: slugs, Q and coupling are all left wide open, and k Q told from it is in wide doubt; look for a damped winding or a coupling that was altered",
  },
];
const startsCount = 6;

/** The strip at one trust, brought to the sweep. */
export interface Attempt {
  readonly trust: Trust;
  readonly found: LeastSquaresFit;
  /** covariance of the leaves, each in units of its prior spread */
  readonly spread: () => number[][];
  readonly priorU: readonly number[];
  readonly leafValue: (i: number, z: number) => number;
  /** residuals over their noise, by frequency */
  readonly rest: Float64Array;
  readonly rmsDb: number;
  readonly logChance: number;
}
/** Points of the sweep that the model can speak of. */
export interface Used {
  readonly hz: Float64Array;
  readonly db: Float64Array;
  readonly weights: Float64Array;
  readonly topDb: number;
}

/** Least squares of leaves and level at one trust, from several starts where the slugs are free. */
export function attempt(strip: DescribedStrip, leaves: readonly Leaf[], used: Used, trust: Trust, said: SlugsTouched): Attempt | undefined {
  const { hz, db, weights, topDb } = used;
  const n = leaves.length;
  const model = plainStrip(strip);
  const slots = leaves.map((l) => stripSlot(model, l.path));
  const logarithmic = leaves.map((l) => l.positive && l.quantity.value > 0);
  const scale = strip.intermediateFrequency.value / 455e3;
  const priorU = leaves.map((l, i) => {
    const u = standardUncertainty(l.quantity.spread) / (logarithmic[i] ? l.quantity.value : 1);
    if (/Offset$/.test(l.path)) return Math.max(u, trust.offsetHz * scale);
    return /(Q|coupling)$/.test(l.path) ? Math.max(u, trust.relative) : u;
  });
  const leafValue = (i: number, z: number): number =>
    logarithmic[i] ? leaves[i].quantity.value * Math.exp(z * priorU[i]) : leaves[i].quantity.value + z * priorU[i];
  const response = new StripResponse();
  /** parameters: each leaf in units of its prior spread, then the level in tens of dB */
  const residuals = (z: Float64Array, out: Float64Array): void => {
    for (let i = 0; i < n; i++) slots[i].holder[slots[i].key] = leafValue(i, z[i]);
    response.load(model);
    let peak = 0;
    for (let p = 0; p < hz.length; p++) {
      const h = response.at(hz[p]);
      out[p] = h;
      if (h > peak) peak = h;
    }
    for (let p = 0; p < hz.length; p++) out[p] = (10 * Math.log10(out[p] / peak) + z[n] * 10 + topDb - db[p]) * weights[p];
    for (let i = 0; i < n; i++) out[hz.length + i] = z[i];
  };
  let found: LeastSquaresFit | undefined;
  for (let k = 0; k < (trust.offsetHz > 0 ? startsCount : 1); k++) {
    const from = k === 0 ? new Float64Array(n) : normalStream(k, "slugs", n);
    const tried = leastSquares({
      residuals,
      rows: hz.length + n,
      start: Float64Array.from({ length: n + 1 }, (_, i) => (i < n && /Offset$/.test(leaves[i].path) ? from[i] : 0)),
      scale: new Float64Array(n + 1).fill(1),
      coarse: true,
      iterations: 60,
      enoughRatio: 1e-6,
      low: new Float64Array(n + 1).fill(-8),
      high: new Float64Array(n + 1).fill(8),
    });
    if (tried.normalInverse && (!found || tried.cost < found.cost)) found = tried;
  }
  if (!found) return undefined;
  const out = new Float64Array(hz.length + n);
  residuals(found.p, out);
  const rest = out.slice(0, hz.length);
  const rmsDb = Math.sqrt(rest.reduce((s, r, p) => s + (r / weights[p]) ** 2, 0) / hz.length);
  const best = found;
  const spread = (): number[][] => spreadAlong(best, n, { residuals, weights });
  return { trust, found, spread, priorU, leafValue, rest, rmsDb, logChance: Math.log(trust.chance[said]) + evidence(found, n) };
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
