import { leastSquares } from "../numerics/least-squares";
import { StripResponse } from "../physics/if-strip";
import type { Estimate } from "../units/draws";
import { bad, good, type Read } from "../units/issue";
import { type Quantity, standardUncertainty } from "../units/quantity";
import { type DescribedStrip, type Leaf, plainStrip, stripLeaves, stripSlot } from "./strip";

export interface StripSweep {
  readonly frequencyHz: Float64Array;
  readonly levelDb: Float64Array;
  /** standard deviation of one level, dB */
  readonly noiseDb: number;
}
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
  readonly rmsDb: number;
  readonly iterations: number;
  readonly usedPoints: number;
  readonly warnings: readonly string[];
}

/** Below this the model has no stray coupling to offer, so points there are left out, dB under the peak. */
const floorDb = 50;
/** What the model itself may be off by, added to the noise, dB. Assumed. */
const modelDb = 0.03;

/** A sweep that misses by more than this is of something else. Assumed. */
const farDb = 1.5;

/**
 * Fits a strip's model to a sweep of it: every uncertain leaf, each with its stated value and spread as prior; the level of the sweep is free.
 *
 * Positive leaves are fitted in their logarithm. Directions that the sweep cannot tell keep their prior spread, so the estimate covers all
 * leaves. The covariance is that of the data and the prior together, widened where the residuals are larger than the noise.
 *
 * @param strip as described, with priors
 * @param sweep frequencies and levels, at least 20 points within 50 dB of the peak
 * @param id id of the estimate
 * @param fromReadings ids of the readings it rests on
 * @returns the estimate and what it tells, or why there is none
 * @source Bayesian least squares (maximum a posteriori, linearised covariance), textbook; identifiability checked in fit-strip.property.test.ts
 */
export function fitStrip(strip: DescribedStrip, sweep: StripSweep, id: string, fromReadings: readonly string[]): Read<StripFit> {
  const leaves = stripLeaves(strip).filter((l) => standardUncertainty(l.quantity.spread) > 0 && !isScale(l.path));
  const top = sweep.levelDb.reduce((m, y) => Math.max(m, y), Number.NEGATIVE_INFINITY);
  const used = Array.from(sweep.levelDb.keys()).filter((i) => sweep.levelDb[i] > top - floorDb);
  if (used.length < 20) return bad("sweep", "too-few", `${used.length} points within ${floorDb} dB of the peak`, "at least 20");
  const ifHz = strip.intermediateFrequency.value;
  const [from, to] = [sweep.frequencyHz[0], sweep.frequencyHz[sweep.frequencyHz.length - 1]];
  if (ifHz < from || ifHz > to)
    return bad(
      "sweep",
      "not-this-strip",
      `${(from / 1e3).toFixed(1)} to ${(to / 1e3).toFixed(1)} kHz`,
      `a sweep across this strip's IF, ${(ifHz / 1e3).toFixed(1)} kHz`,
    );
  const warnings: string[] = [];
  if (used.length < sweep.levelDb.length)
    warnings.push(`${sweep.levelDb.length - used.length} points more than ${floorDb} dB down are left out: strays decide there`);
  const hz = Float64Array.from(used, (i) => sweep.frequencyHz[i]);
  const db = Float64Array.from(used, (i) => sweep.levelDb[i]);
  const n = leaves.length;
  const sigma = Math.hypot(sweep.noiseDb, modelDb);
  const weights = db.map((y) => 1 / Math.hypot(sigma, 0.01 * Math.max(0, top - y - 20)));
  const model = plainStrip(strip);
  const slots = leaves.map((l) => stripSlot(model, l.path));
  const logarithmic = leaves.map((l) => l.positive && l.quantity.value > 0);
  const priorU = leaves.map((l, i) => standardUncertainty(l.quantity.spread) / (logarithmic[i] ? l.quantity.value : 1));
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
    for (let p = 0; p < hz.length; p++) out[p] = (10 * Math.log10(out[p] / peak) + z[n] * 10 + top - db[p]) * weights[p];
    for (let i = 0; i < n; i++) out[hz.length + i] = z[i];
  };
  const found = leastSquares({
    residuals,
    rows: hz.length + n,
    start: new Float64Array(n + 1),
    scale: new Float64Array(n + 1).fill(1),
    coarse: true,
    iterations: 60,
    enoughRatio: 1e-6,
    low: new Float64Array(n + 1).fill(-8),
    high: new Float64Array(n + 1).fill(8),
  });
  if (!found.normalInverse) return bad("sweep", "no-fit", found.status, "a sweep that this strip can give");
  const out = new Float64Array(hz.length + n);
  residuals(found.p, out);
  let misfit = 0;
  let square = 0;
  for (let p = 0; p < hz.length; p++) {
    misfit += out[p] ** 2;
    square += (out[p] / weights[p]) ** 2;
  }
  const rmsDb = Math.sqrt(square / hz.length);
  if (rmsDb > farDb)
    return bad(
      "sweep",
      "not-this-strip",
      `${rmsDb.toFixed(1)} dB rms off`,
      `a sweep that this strip can give to within ${farDb} dB; read it in as a plain sweep, or mend the set's description`,
    );
  const widen = Math.max(1, misfit / hz.length);
  if (widen > 2)
    warnings.push(`the model misses the sweep by ${Math.sqrt(widen).toFixed(1)} times its noise: intervals are widened by as much`);
  const far = leaves.filter((_, i) => Math.abs(found.p[i]) > 3);
  if (far.length > 0)
    warnings.push(`${far.map((l) => l.path).join(", ")} moved more than three of its stated spreads: check the description`);
  // A direction never ends up wider than its prior.
  const c = (i: number, j: number): number => found.normalInverse![i * (n + 1) + j];
  const grow = (i: number): number => Math.min(Math.sqrt(widen), 1 / Math.sqrt(Math.max(c(i, i), 1e-30)), 1e3);
  const covariance = leaves.map((_, i) =>
    leaves.map((__, j) => c(i, j) * priorU[i] * priorU[j] * Math.max(1, grow(i)) * Math.max(1, grow(j))),
  );
  const values = leaves.map((_, i) => leafValue(i, found.p[i]));
  const quantity = (i: number): Quantity => ({
    value: values[i],
    spread: { shape: "normal", u: Math.sqrt(covariance[i][i]) * (logarithmic[i] ? values[i] : 1) },
    origin: "fitted",
    source: `fit ${id}`,
    joint: id,
  });
  const told = leaves.map((l, i) => ({
    path: l.path,
    dimension: l.dimension,
    before: l.quantity,
    after: quantity(i),
    leftRatio: Math.sqrt(covariance[i][i]) / priorU[i],
  }));
  return good({
    estimate: {
      id,
      names: leaves.map((l) => l.path),
      values,
      logarithmic,
      covariance,
      fromReadings: [...fromReadings],
      model: "if-strip@1",
    },
    values: Object.fromEntries(leaves.map((l, i) => [l.path, quantity(i)])),
    leaves: told,
    combinations: combinations(strip, leaves, values, covariance, priorU),
    directionsCount: directions(covariance, priorU),
    rmsDb,
    iterations: found.iterations,
    usedPoints: hz.length,
    warnings,
  });
}

/** Leaves that only scale the whole response: a relative sweep says nothing of them, and they do not bend it. */
const isScale = (path: string): boolean => path.endsWith(".transconductance");

function combinations(
  strip: DescribedStrip,
  leaves: readonly Leaf[],
  values: readonly number[],
  covariance: readonly (readonly number[])[],
  priorU: readonly number[],
) {
  return strip.cans.flatMap((can, k) => {
    const terms = [
      ["coupling", 1],
      ["primaryQ", 0.5],
      ["secondaryQ", 0.5],
    ] as const;
    const at = terms.map(([name, power]) => ({ i: leaves.findIndex((l) => l.path === `strip.can${k + 1}.${name}`), power }));
    if (at.some((t) => t.i < 0)) return [];
    const after = Math.sqrt(at.reduce((s, a) => s + at.reduce((r, b) => r + a.power * b.power * covariance[a.i][b.i], 0), 0));
    const before = Math.sqrt(at.reduce((s, a) => s + (a.power * priorU[a.i]) ** 2, 0));
    return [
      { name: `k Q of ${can.label}`, value: at.reduce((s, t) => s * values[t.i] ** t.power, 1), beforeRatio: before, afterRatio: after },
    ];
  });
}

/** How many independent directions are known to better than half of before: eigenvalues below 1/4 of the whitened covariance, by Jacobi rotations. */
function directions(covariance: readonly (readonly number[])[], priorU: readonly number[]): number {
  const n = priorU.length;
  const a = covariance.map((row, i) => row.map((v, j) => v / (priorU[i] * priorU[j])));
  for (let sweepCount = 0; sweepCount < 30; sweepCount++) {
    let off = 0;
    for (let p = 0; p < n; p++)
      for (let q = p + 1; q < n; q++) {
        off += a[p][q] ** 2;
        if (Math.abs(a[p][q]) < 1e-14) continue;
        const theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
        const t = Math.sign(theta || 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
        const cs = 1 / Math.sqrt(t * t + 1);
        const sn = t * cs;
        for (let k = 0; k < n; k++) [a[k][p], a[k][q]] = [cs * a[k][p] - sn * a[k][q], sn * a[k][p] + cs * a[k][q]];
        for (let k = 0; k < n; k++) [a[p][k], a[q][k]] = [cs * a[p][k] - sn * a[q][k], sn * a[p][k] + cs * a[q][k]];
      }
    if (off < 1e-18) break;
  }
  return a.filter((row, i) => row[i] < 0.25).length;
}
