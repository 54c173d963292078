import { normalEquations, posterior } from "../../numerics/bayes-linear";
import { maternVariances, smoothBasis, smoothSlopes, smoothTerms } from "../../numerics/smooth-basis";
import { type Conversion, oscillatorHz } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { bad, good, type Read } from "../../units/issue";
import { type DialBeforehand, wholeScale } from "./beforehand";
import { type DialFit, slopeInZ } from "./fitted";
import { dialTerms, placeOf, type Scaling, zOf } from "./scaling";

export interface DialAssumed {
  /** standard deviation of one reading of the scale, divisions */
  readonly readingNoise: number;
  /** standard deviation of a zero beat, Hz */
  readonly zeroBeatHz: number;
  /** backlash expected, and its standard deviation, divisions */
  readonly backlash: number;
  readonly backlashU: number;
  /** what counts as one division: 1, or a hundredth of a scale that has fewer, such as one that is marked in MHz */
  readonly division?: number;
  /** keep length, size and noise of the likeliest part of an earlier fit, and its slopes: then a point more never widens an interval */
  readonly held?: DialFit;
  /** whether readings may scatter by far more than was stated, with none of them odd */
  readonly scatter?: boolean;
  /** what is known of the whole scale before any beat: with fewer than `enoughPoints` the law leans on it */
  readonly beforehand?: DialBeforehand;
}
/** from so many beats on the law is told by them alone; with fewer it leans on what is known beforehand */
export const enoughPoints = 5;
const polynomialSize = 10;

export interface Prepared {
  readonly scaling: Scaling;
  readonly osc: readonly number[];
  readonly z: readonly number[];
  /** dz/d(reading) at each point */
  readonly slopes: readonly number[];
  readonly typical: number;
  readonly low: number;
  readonly high: number;
}
/**
 * Points turned into the coordinates that the law is linear in.
 *
 * @param points zero beats
 * @param conversion IF and side of the oscillator
 * @param assumed noise and backlash to expect
 * @returns coordinates and slopes at each point, or what is wrong with the points
 * @source derived here: 1/f_osc^2 is linear in the capacitance
 */
export function prepared(points: readonly DialPoint[], conversion: Conversion, assumed: DialAssumed): Read<Prepared> {
  const readings = points.map((p) => p.reading);
  const [low, high] = [Math.min(...readings), Math.max(...readings)];
  const osc = points.map((p) => oscillatorHz(p.frequencyHz, conversion));
  const middleHz = osc.reduce((s, f) => s + f, 0) / osc.length;
  const y = osc.map((f) => (middleHz / f) ** 2);
  const [yLow, yHigh] = [Math.min(...y), Math.max(...y)];
  if (!(high > low) || !(yHigh > yLow)) return bad("points", "no-span", `${points.length} points at one place`, "points along the scale");
  const whole = leansOn(points, assumed);
  const scaling: Scaling | undefined =
    assumed.held?.scaling ??
    (whole
      ? wholeScale(points, osc, whole, conversion, assumed.backlash)
      : {
          middle: (low + high) / 2,
          half: (high - low) / 2,
          oscillatorHz: middleHz,
          yMiddle: (yLow + yHigh) / 2,
          yHalf: (yHigh - yLow) / 2,
          backlash: assumed.backlash,
          power: 2,
        });
  if (!scaling) return oneWay("no slope");
  const z = osc.map((f) => zOf(f, scaling));
  const { held } = assumed;
  const slopes = held ? points.map((p) => slopeInZ(held, p.reading)) : whole ? straightSlopes(points, z) : pilotSlopes(points, z, scaling);
  const typical = Math.abs(slopes.reduce((s, v) => s + v, 0) / slopes.length);
  if (!(typical > 0)) return oneWay("no slope");
  return good({ scaling, osc, z, slopes, typical, low, high });
}
export const oneWay = (read: string): Read<never> =>
  bad("points", "not-one-law", read, "frequencies that go one way along the scale: two bands or set-points may be mixed");

/** What a law leans on besides its beats: with few of them, or where the whole scale is asked about. */
export const leansOn = (points: readonly DialPoint[], assumed: DialAssumed): DialBeforehand | undefined => {
  if (points.length >= enoughPoints && assumed.beforehand?.always !== true) return undefined;
  const readings = points.map((p) => p.reading);
  return assumed.beforehand ?? { scale: [Math.min(...readings), Math.max(...readings)] };
};
/** The slope of the straight line through the points, at each: all that few of them tell. */
function straightSlopes(points: readonly DialPoint[], z: readonly number[]): number[] {
  const middle = points.reduce((s, p) => s + p.reading, 0) / points.length;
  const span = points.reduce((s, p) => s + (p.reading - middle) ** 2, 0);
  const slope = points.reduce((s, p, i) => s + (p.reading - middle) * z[i], 0) / span;
  return points.map(() => slope);
}

/**
 * Prior standard deviations of all coefficients: cubic, sines, backlash.
 *
 * @source spectral weights of a Matern-5/2 covariance, reduced rank
 */
export function sizes(length: number, amplitudeZ: number, backlashU: number): Float64Array {
  const out = new Float64Array(dialTerms).fill(polynomialSize);
  const variance = maternVariances(length, amplitudeZ);
  for (const [j, v] of variance.entries()) out[smoothTerms - variance.length + j] = Math.sqrt(v);
  out[smoothTerms] = backlashU;
  return out;
}

/** dz/d(reading) at each point from a plain cubic: good enough to turn divisions into z. */
function pilotSlopes(points: readonly DialPoint[], z: readonly number[], s: Scaling): number[] {
  const order = points.length < 8 ? 3 : 4;
  const rows = points.map((p) => {
    const b = new Float64Array(smoothTerms);
    smoothBasis(placeOf(p.reading, s), b);
    return b.subarray(0, order);
  });
  const g = normalEquations(
    rows,
    z,
    rows.map(() => 1e-6),
  );
  const size = new Float64Array(order).fill(polynomialSize);
  const w = posterior(g, size)!.mean.map((v, k) => v * size[k]);
  const d = new Float64Array(smoothTerms);
  const at = points.map((point) => {
    smoothSlopes(placeOf(point.reading, s), d);
    let slope = 0;
    for (let j = 0; j < order; j++) slope += w[j] * d[j];
    return slope / s.half;
  });
  // where the cubic turns over at an end, the mean slope stands in
  const mean = at.reduce((t, v) => t + v, 0) / at.length;
  return at.map((v) => (v * mean > 0 && Math.abs(v) > 0.2 * Math.abs(mean) ? v : mean));
}
/**
 * Rows of the linear model: the basis at each reading, and what a division of backlash does there.
 *
 * @source linear model: polynomial, sines and backlash
 */
export function design(points: readonly DialPoint[], slopes: readonly number[], s: Scaling): Float64Array[] {
  return points.map((p, i) => {
    const row = new Float64Array(dialTerms);
    smoothBasis(placeOf(p.reading, s), row);
    row[smoothTerms] = -0.5 * p.approach * slopes[i];
    return row;
  });
}

/**
 * Variance of each zero beat in z: its reading, the beat itself, and the backlash where the side is not known.
 *
 * @param points zero beats
 * @param ready the same in the coordinates of the law
 * @param noise standard deviation of a reading, divisions
 * @param assumed of a zero beat, Hz, and of the backlash, divisions
 * @returns one a point, z squared
 * @source propagation of uncertainty to first order, JCGM 100
 */
export function variances(
  points: readonly DialPoint[],
  { slopes, osc, scaling: s }: Pick<Prepared, "slopes" | "osc" | "scaling">,
  noise: number,
  assumed: DialAssumed,
): number[] {
  return points.map((p, i) => {
    const beat = ((s.power * (s.oscillatorHz / osc[i]) ** s.power) / osc[i] / s.yHalf) * assumed.zeroBeatHz;
    const side = p.approach === 0 ? 0.5 * Math.hypot(assumed.backlash, assumed.backlashU) : 0;
    return (slopes[i] * noise) ** 2 + beat ** 2 + (slopes[i] * side) ** 2;
  });
}
