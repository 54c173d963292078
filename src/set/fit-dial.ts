import { type NormalEquations, normalEquations, posterior } from "../numerics/bayes-linear";
import { maternVariances, smoothBasis, smoothSlopes, smoothTerms } from "../numerics/smooth-basis";
import { type Conversion, oscillatorHz } from "../physics/dial-law";
import { bad, good, type Read } from "../units/issue";
import { type DialFit, type DialPoint, dialTerms, isMonotone, type Part, placeOf, type Scaling, slopeInZ } from "./fitted-dial";

export interface DialAssumed {
  /** standard deviation of one reading of the scale, divisions */
  readonly readingNoise: number;
  /** standard deviation of a zero beat, Hz */
  readonly zeroBeatHz: number;
  /** backlash expected, and its standard deviation, divisions */
  readonly backlash: number;
  readonly backlashU: number;
  /** keep length, size and noise of the likeliest part of an earlier fit, and its slopes: then a point more never widens an interval */
  readonly held?: DialFit;
}
const lengths = [0.3, 0.6, 1.2, 2.4];
const amplitudesDiv = [0, 0.1, 0.3, 1, 3];
const noises = [0.5, 0.7, 1, 1.4, 2];
/** log-normal weight of the noise about what is stated: a factor of 1.45 is one standard deviation, common practice, no source */
const noisePriorSigma = Math.log(1.45);
const polynomialSize = 10;
export const leastPoints = 5;
export const mostPoints = 400;

/**
 * Fits the law of a dial to zero beats: 1/f_osc^2 is a smooth function of the reading, a cubic and a smooth residual, with reading noise and
 * backlash; noise, length and size of the residual are averaged over a grid by how well each explains the points.
 *
 * @param points zero beats, outliers left out
 * @param conversion IF and side of the oscillator on this band
 * @param assumed noise and backlash to expect
 * @returns the fit, or what is wrong with the points
 * @source reference text on dial calibration: y = 1/(f + IF)^2 against reading, cubic and Matern-5/2 residual, hyperparameters averaged; linear
 * Bayesian regression, Rasmussen and Williams (2006) chapters 2 and 5
 */
export function fitDial(points: readonly DialPoint[], conversion: Conversion, assumed: DialAssumed): Read<DialFit> {
  if (points.length < leastPoints)
    return bad(
      "points",
      "too-few",
      `${points.length} points`,
      `at least ${leastPoints} zero beats: with fewer a curve can be drawn through them, but nothing tells how far it is off between them`,
    );
  if (points.length > mostPoints) return bad("points", "too-many", `${points.length} points`, `at most ${mostPoints} zero beats`);
  const ready = prepared(points, conversion, assumed);
  if (!ready.ok) return ready;
  const { scaling, z, slopes, osc, typical, low, high } = ready.value;
  const { held } = assumed;
  const grid = held ? [heaviest(held)] : hyperparameters(assumed.readingNoise, typical);
  const rows = design(points, slopes, scaling);
  const target = points.map((p, i) => z[i] + 0.5 * p.approach * slopes[i] * assumed.backlash);
  const parts: (Part & { readonly log: number })[] = [];
  const gram = new Map<number, NormalEquations>();
  for (const h of grid) {
    const g = gram.get(h.noise) ?? normalEquations(rows, target, variances(points, slopes, osc, scaling, h.noise, assumed));
    gram.set(h.noise, g);
    const size = sizes(h.length, h.amplitude, assumed.backlashU);
    const p = posterior(g, size);
    if (p) parts.push({ ...h, size, mean: p.mean, factor: p.factor, log: p.log + Math.log(h.weight) });
  }
  const best = Math.max(...parts.map((p) => p.log));
  const kept = parts.map((p) => ({ ...p, weight: Math.exp(p.log - best) })).filter((p) => p.weight > 1e-3);
  const sum = kept.reduce((s, p) => s + p.weight, 0);
  const fit: DialFit = {
    points,
    conversion,
    low,
    high,
    side: Math.sign(points.reduce((s, p) => s + p.approach, 0)) as -1 | 0 | 1,
    parts: kept.map(({ log: _, ...p }) => ({ ...p, weight: p.weight / sum })),
    readingNoise: kept.reduce((s, p) => s + (p.weight / sum) * p.noise, 0),
    scaling,
  };
  return isMonotone(fit)
    ? good(fit)
    : bad(
        "points",
        "not-one-law",
        `${points.length} points`,
        "frequencies that go one way along the scale: two bands or set-points may be mixed",
      );
}

interface Prepared {
  readonly scaling: Scaling;
  readonly osc: readonly number[];
  readonly z: readonly number[];
  /** dz/d(reading) at each point */
  readonly slopes: readonly number[];
  readonly typical: number;
  readonly low: number;
  readonly high: number;
}
function prepared(points: readonly DialPoint[], conversion: Conversion, assumed: DialAssumed): Read<Prepared> {
  const readings = points.map((p) => p.reading);
  const [low, high] = [Math.min(...readings), Math.max(...readings)];
  const osc = points.map((p) => oscillatorHz(p.frequencyHz, conversion));
  const middleHz = osc.reduce((s, f) => s + f, 0) / osc.length;
  const y = osc.map((f) => (middleHz / f) ** 2);
  const [yLow, yHigh] = [Math.min(...y), Math.max(...y)];
  if (!(high > low) || !(yHigh > yLow)) return bad("points", "no-span", `${points.length} points at one place`, "points along the scale");
  const scaling: Scaling = assumed.held?.scaling ?? {
    middle: (low + high) / 2,
    half: (high - low) / 2,
    oscillatorHz: middleHz,
    yMiddle: (yLow + yHigh) / 2,
    yHalf: (yHigh - yLow) / 2,
    backlash: assumed.backlash,
  };
  const z = osc.map((f) => ((scaling.oscillatorHz / f) ** 2 - scaling.yMiddle) / scaling.yHalf);
  const { held } = assumed;
  const slopes = held ? points.map((p) => slopeInZ(held, p.reading)) : pilotSlopes(points, z, scaling);
  const typical = Math.abs(slopes.reduce((s, v) => s + v, 0) / slopes.length);
  if (!(typical > 0)) return bad("points", "not-one-law", "no slope", "frequencies that go one way along the scale");
  return good({ scaling, osc, z, slopes, typical, low, high });
}

/**
 * How well one law explains zero beats, as the logarithm of the evidence over a coarse grid; and, where the scale is thought to have slipped by an
 * unknown amount from some point on, by how much. Comparable between labels and slips of the same readings.
 *
 * @param points zero beats in the order in which they were taken
 * @param conversion IF and side of the oscillator
 * @param assumed noise and backlash to expect
 * @param slippedFrom first point after a slip; none where it is not given
 * @returns evidence, and the slip in divisions; undefined where no law goes through the points
 * @source Bayesian model comparison, Rasmussen and Williams (2006) 5.4; readings are what is random, hence the slopes
 */
export function evidenceOf(
  points: readonly DialPoint[],
  conversion: Conversion,
  assumed: DialAssumed,
  slippedFrom?: number,
): { readonly log: number; readonly slipDiv: number } | undefined {
  const ready = prepared(points, conversion, assumed);
  if (!ready.ok) return undefined;
  const { scaling, z, slopes, osc, typical } = ready.value;
  const rows = design(points, slopes, scaling).map((r, i) => {
    if (slippedFrom === undefined) return r;
    const longer = new Float64Array(dialTerms + 1);
    longer.set(r);
    longer[dialTerms] = i >= slippedFrom ? -slopes[i] : 0;
    return longer;
  });
  const target = points.map((p, i) => z[i] + 0.5 * p.approach * slopes[i] * assumed.backlash);
  const g = normalEquations(rows, target, variances(points, slopes, osc, scaling, assumed.readingNoise, assumed));
  const jacobian = slopes.reduce((s, v) => s + Math.log(Math.abs(v)), 0);
  let best: { log: number; slipDiv: number } | undefined;
  for (const amplitude of [0.1, 0.3, 1, 3])
    for (const length of [0.6, 2.4]) {
      const size = new Float64Array(g.size);
      size.set(sizes(length, amplitude * typical, assumed.backlashU));
      if (slippedFrom !== undefined) size[dialTerms] = slipSizeDiv;
      const p = posterior(g, size);
      if (p && (!best || p.log + jacobian > best.log))
        best = { log: p.log + jacobian, slipDiv: slippedFrom === undefined ? 0 : p.mean[dialTerms] * size[dialTerms] };
    }
  return best;
}
/** a slip of a few divisions is what a cord or a pointer does, common practice, no source */
const slipSizeDiv = 2;

/** Grid of lengths, sizes (divisions, turned into z by the typical slope) and noises, with what each weighs beforehand. */
function hyperparameters(readingNoise: number, typicalSlope: number) {
  const out: { weight: number; length: number; amplitude: number; noise: number }[] = [];
  for (const n of noises)
    for (const amplitude of amplitudesDiv)
      for (const length of amplitude === 0 ? [1] : lengths) {
        const weight = Math.exp(-0.5 * (Math.log(n) / noisePriorSigma) ** 2) / (amplitude === 0 ? 1 : lengths.length);
        out.push({ weight, length, amplitude: amplitude * typicalSlope, noise: n * readingNoise });
      }
  return out;
}

/** Prior standard deviations of all coefficients: cubic, sines, backlash. */
function sizes(length: number, amplitudeZ: number, backlashU: number): Float64Array {
  const out = new Float64Array(dialTerms).fill(polynomialSize);
  const variance = maternVariances(length, amplitudeZ);
  for (const [j, v] of variance.entries()) out[smoothTerms - variance.length + j] = Math.sqrt(v);
  out[smoothTerms] = backlashU;
  return out;
}

/** The likeliest part of a fit. */
const heaviest = (fit: DialFit): Part => fit.parts.reduce((a, b) => (b.weight > a.weight ? b : a));

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
/** Rows of the linear model: the basis at each reading, and what a division of backlash does there. */
function design(points: readonly DialPoint[], slopes: readonly number[], s: Scaling): Float64Array[] {
  return points.map((p, i) => {
    const row = new Float64Array(dialTerms);
    smoothBasis(placeOf(p.reading, s), row);
    row[smoothTerms] = -0.5 * p.approach * slopes[i];
    return row;
  });
}

/** Variance of each zero beat in z: its reading, the beat itself, and the backlash where the side is not known. */
function variances(
  points: readonly DialPoint[],
  slopes: readonly number[],
  osc: readonly number[],
  s: Scaling,
  noise: number,
  assumed: DialAssumed,
): number[] {
  return points.map((p, i) => {
    const beat = ((2 * (s.oscillatorHz / osc[i]) ** 2) / osc[i] / s.yHalf) * assumed.zeroBeatHz;
    const side = p.approach === 0 ? 0.5 * Math.hypot(assumed.backlash, assumed.backlashU) : 0;
    return (slopes[i] * noise) ** 2 + beat ** 2 + (slopes[i] * side) ** 2;
  });
}
