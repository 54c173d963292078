import { choleskyFactor } from "../numerics/linear";
import { maternVariances, smoothBasis, smoothSlopes, smoothTerms } from "../numerics/smooth-basis";
import { type Conversion, oscillatorHz, signalHz } from "../physics/dial-law";
import { bad, good, type Read } from "../units/issue";

/** A zero beat: what the scale said, what frequency it was, and from which side the dial was turned. */
export interface DialPoint {
  readonly reading: number;
  readonly frequencyHz: number;
  /** 1 turned up to it, -1 down to it, 0 not known */
  readonly approach: -1 | 0 | 1;
}
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
/** One set of hyperparameters with its posterior, whitened: coefficients are `mean` + `factor`^-T xi, times `size`. */
interface Part {
  readonly weight: number;
  readonly length: number;
  /** standard deviation of the residual, in z */
  readonly amplitude: number;
  readonly noise: number;
  readonly size: Float64Array;
  readonly mean: Float64Array;
  readonly factor: Float64Array;
}
export interface DialFit {
  readonly points: readonly DialPoint[];
  readonly conversion: Conversion;
  /** lowest and highest reading of the points: the fit says nothing beyond a little more */
  readonly low: number;
  readonly high: number;
  /** side that most points were approached from: readings are meant so unless said otherwise */
  readonly side: -1 | 0 | 1;
  readonly parts: readonly Part[];
  /** reading noise, divisions: mean over the parts */
  readonly readingNoise: number;
  readonly scaling: Scaling;
}
interface Scaling {
  readonly middle: number;
  readonly half: number;
  readonly oscillatorHz: number;
  readonly yMiddle: number;
  readonly yHalf: number;
  readonly backlash: number;
}

const lengths = [0.3, 0.6, 1.2, 2.4];
const amplitudesDiv = [0, 0.1, 0.3, 1, 3];
const noises = [0.5, 0.7, 1, 1.4, 2];
/** log-normal weight of the noise about what is stated: a factor of 1.45 is one standard deviation, common practice, no source */
const noisePriorSigma = Math.log(1.45);
const polynomialSize = 10;
const terms = smoothTerms + 1;
/**
 * The law's own uncertainty is widened by this, so that on 19 dials of 20 the 95 % interval holds over at least 88 % of the scale: errors along one
 * scale go together, and an interval that is right on the average holds over much less of the worst dial. Measured on invented dials (docs/proof.md); the chance of passing an edge
 * needs no widening there.
 */
export const dialWidening = 1.35;
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
  const gram = new Map<number, Gram>();
  for (const h of grid) {
    const g = gram.get(h.noise) ?? weigh(rows, target, variances(points, slopes, osc, scaling, h.noise, assumed));
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
    const longer = new Float64Array(terms + 1);
    longer.set(r);
    longer[terms] = i >= slippedFrom ? -slopes[i] : 0;
    return longer;
  });
  const target = points.map((p, i) => z[i] + 0.5 * p.approach * slopes[i] * assumed.backlash);
  const g = weigh(rows, target, variances(points, slopes, osc, scaling, assumed.readingNoise, assumed));
  const jacobian = slopes.reduce((s, v) => s + Math.log(Math.abs(v)), 0);
  let best: { log: number; slipDiv: number } | undefined;
  for (const amplitude of [0.1, 0.3, 1, 3])
    for (const length of [0.6, 2.4]) {
      const size = new Float64Array(g.size);
      size.set(sizes(length, amplitude * typical, assumed.backlashU));
      if (slippedFrom !== undefined) size[terms] = slipSizeDiv;
      const p = posterior(g, size);
      if (p && (!best || p.log + jacobian > best.log))
        best = { log: p.log + jacobian, slipDiv: slippedFrom === undefined ? 0 : p.mean[terms] * size[terms] };
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
  const out = new Float64Array(terms).fill(polynomialSize);
  const variance = maternVariances(length, amplitudeZ);
  for (const [j, v] of variance.entries()) out[smoothTerms - variance.length + j] = Math.sqrt(v);
  out[smoothTerms] = backlashU;
  return out;
}

export const heaviest = (fit: DialFit): Part => fit.parts.reduce((a, b) => (b.weight > a.weight ? b : a));

const placeOf = (reading: number, s: Scaling): number => (reading - s.middle) / s.half;

/** dz/d(reading) at each point from a plain cubic: good enough to turn divisions into z. */
function pilotSlopes(points: readonly DialPoint[], z: readonly number[], s: Scaling): number[] {
  const order = points.length < 8 ? 3 : 4;
  const rows = points.map((p) => {
    const b = new Float64Array(smoothTerms);
    smoothBasis(placeOf(p.reading, s), b);
    return b.subarray(0, order);
  });
  const g = weigh(
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
function design(points: readonly DialPoint[], slopes: readonly number[], s: Scaling): Float64Array[] {
  return points.map((p, i) => {
    const row = new Float64Array(terms);
    smoothBasis(placeOf(p.reading, s), row);
    row[smoothTerms] = -0.5 * p.approach * slopes[i];
    return row;
  });
}

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

interface Gram {
  readonly size: number;
  readonly matrix: Float64Array;
  readonly vector: Float64Array;
  readonly square: number;
  readonly logVariance: number;
}
function weigh(rows: readonly Float64Array[], target: readonly number[], variance: readonly number[]): Gram {
  const n = rows[0].length;
  const matrix = new Float64Array(n * n);
  const vector = new Float64Array(n);
  let square = 0;
  let logVariance = 0;
  for (const [k, row] of rows.entries()) {
    const w = 1 / variance[k];
    square += w * target[k] ** 2;
    logVariance += Math.log(variance[k]);
    for (let i = 0; i < n; i++) {
      const wi = w * row[i];
      if (wi === 0) continue;
      vector[i] += wi * target[k];
      for (let j = 0; j <= i; j++) matrix[i * n + j] += wi * row[j];
    }
  }
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) matrix[i * n + j] = matrix[j * n + i];
  return { size: n, matrix, vector, square, logVariance };
}

/** Posterior of whitened coefficients, and the logarithm of the evidence. */
function posterior(g: Gram, size: Float64Array): { mean: Float64Array; factor: Float64Array; log: number } | undefined {
  const n = g.size;
  const a = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) a[i * n + j] = size[i] * size[j] * g.matrix[i * n + j];
    a[i * n + i] += 1;
  }
  const l = choleskyFactor(a, n);
  if (!l) return undefined;
  const half = new Float64Array(n);
  let explained = 0;
  let logDeterminant = 0;
  for (let i = 0; i < n; i++) {
    let s = size[i] * g.vector[i];
    for (let k = 0; k < i; k++) s -= l[i * n + k] * half[k];
    half[i] = s / l[i * n + i];
    explained += half[i] ** 2;
    logDeterminant += 2 * Math.log(l[i * n + i]);
  }
  backSolve(l, half, n);
  return { mean: half, factor: l, log: -0.5 * (g.square - explained + logDeterminant + g.logVariance) };
}
/** Solves L^T x = b in place. */
function backSolve(l: Float64Array, b: Float64Array, n: number): void {
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) b[i] -= l[k * n + i] * b[k];
    b[i] /= l[i * n + i];
  }
}

const row = new Float64Array(terms);
const solved = new Float64Array(terms);
const dot = (p: Part): number => {
  let s = 0;
  for (let i = 0; i < terms; i++) s += row[i] * p.size[i] * p.mean[i];
  return s;
};
/** Variance of the smooth law under one part, for the row that is loaded. */
const varianceOf = (p: Part): number => {
  let v = 0;
  for (let i = 0; i < terms; i++) {
    let s = row[i] * p.size[i];
    for (let k = 0; k < i; k++) s -= p.factor[i * terms + k] * solved[k];
    solved[i] = s / p.factor[i * terms + i];
    v += solved[i] ** 2;
  }
  return v;
};

/** dz/d(reading) of the mean law where the row was loaded last. */
let loadedSlope = 0;
/** Loads the basis at a reading approached from a side; returns what the expected backlash adds to z. */
function load(fit: DialFit, reading: number, approach: number): number {
  const u = placeOf(reading, fit.scaling);
  smoothSlopes(u, row);
  let slope = 0;
  for (const p of fit.parts) {
    let s = 0;
    for (let i = 0; i < smoothTerms; i++) s += row[i] * p.size[i] * p.mean[i];
    slope += p.weight * s;
  }
  slope /= fit.scaling.half;
  loadedSlope = slope;
  smoothBasis(u, row);
  row[smoothTerms] = -0.5 * approach * slope;
  return -0.5 * approach * slope * fit.scaling.backlash;
}
/** dz/d(reading) of the fitted law. */
function slopeInZ(fit: DialFit, reading: number): number {
  load(fit, reading, 0);
  return loadedSlope;
}
const hzOf = (z: number, fit: DialFit): number => {
  const { yMiddle, yHalf, oscillatorHz: middle } = fit.scaling;
  return signalHz(middle / Math.sqrt(Math.max(1e-9, yMiddle + yHalf * z)), fit.conversion);
};
/** df/dz at a z, Hz. */
const leverage = (z: number, fit: DialFit): number => {
  const { yMiddle, yHalf, oscillatorHz: middle } = fit.scaling;
  return -0.5 * middle * yHalf * Math.max(1e-9, yMiddle + yHalf * z) ** -1.5;
};

export interface DialAt {
  readonly hz: number;
  /** standard uncertainty of the law there, Hz; a setting adds its own reading noise */
  readonly uHz: number;
}
/**
 * What the dial stands at.
 *
 * @param fit the fit
 * @param reading scale, divisions
 * @param approach side it was turned from; the fit's own side where it is not said
 * @returns frequency and standard uncertainty, Hz
 */
export function dialAt(fit: DialFit, reading: number, approach: number = fit.side): DialAt {
  const shift = load(fit, reading, approach);
  let mean = 0;
  let second = 0;
  for (const p of fit.parts) {
    const m = dot(p);
    mean += p.weight * m;
    second += p.weight * (m * m + varianceOf(p));
  }
  const z = mean + shift;
  return { hz: hzOf(z, fit), uHz: Math.abs(leverage(z, fit)) * Math.sqrt(Math.max(0, second - mean * mean)) };
}

/** What each part of a fit says along its reach: where the dial stands, and how one more setting scatters about that; laid out once. */
interface Spread {
  readonly from: number;
  readonly step: number;
  readonly hz: readonly Float64Array[];
  readonly uHz: readonly Float64Array[];
}
const spreadPoints = 401;
const spreads = new WeakMap<DialFit, Map<number, Spread>>();
function spreadOf(fit: DialFit, approach: number): Spread {
  const known = spreads.get(fit) ?? new Map<number, Spread>();
  spreads.set(fit, known);
  const had = known.get(approach);
  if (had) return had;
  const [from, to] = reach(fit);
  const step = (to - from) / (spreadPoints - 1);
  const hz = fit.parts.map(() => new Float64Array(spreadPoints));
  const uHz = fit.parts.map(() => new Float64Array(spreadPoints));
  for (let i = 0; i < spreadPoints; i++) {
    const shift = load(fit, from + i * step, approach);
    const slope = loadedSlope;
    for (const [k, p] of fit.parts.entries()) {
      const z = dot(p) + shift;
      hz[k][i] = hzOf(z, fit);
      uHz[k][i] = Math.abs(leverage(z, fit)) * Math.hypot(Math.sqrt(varianceOf(p)), slope * p.noise);
    }
  }
  const made = { from, step, hz, uHz };
  known.set(approach, made);
  return made;
}

/**
 * Chance that the dial, set to a reading once more, stands below a frequency: the law's doubt, the reading noise of the setting, and the rest.
 * Between 401 readings laid out along the fit's reach the law is taken as straight, which is off by less than a ten-thousandth of its bend.
 *
 * @param fit the fit
 * @param reading scale, divisions, within the fit's reach
 * @param edgeHz frequency, Hz
 * @param otherHz standard deviation of what neither law nor reading holds: marker, drift, Hz
 * @param normal distribution function of the standard normal
 * @param approach side that the setting is made from; the fit's own where it is not said
 * @returns 0 to 1, over all parts of the fit
 */
export function chanceBelow(
  fit: DialFit,
  reading: number,
  edgeHz: number,
  otherHz: number,
  normal: (x: number) => number,
  approach: number = fit.side,
): number {
  const { from, step, hz, uHz } = spreadOf(fit, approach);
  const at = Math.min(spreadPoints - 1.000001, Math.max(0, (reading - from) / step));
  const i = Math.floor(at);
  const t = at - i;
  let chance = 0;
  for (let k = 0; k < hz.length; k++) {
    const mean = hz[k][i] * (1 - t) + hz[k][i + 1] * t;
    const u = uHz[k][i] * (1 - t) + uHz[k][i + 1] * t;
    chance += fit.parts[k].weight * normal((edgeHz - mean) / Math.hypot(u, otherHz));
  }
  return chance;
}

/** Slope of the dial at a reading, Hz a division. */
export function dialSlope(fit: DialFit, reading: number): number {
  const d = 1e-3 * fit.scaling.half;
  return (dialAt(fit, reading + d).hz - dialAt(fit, reading - d).hz) / (2 * d);
}

/** Reading at which the dial stands at a frequency; undefined beyond the points by more than a twentieth of their span. */
export function readingFor(fit: DialFit, hz: number): number | undefined {
  const [from, to] = reach(fit);
  const sign = Math.sign(dialAt(fit, to).hz - dialAt(fit, from).hz);
  let [a, b] = [from, to];
  if (sign * (hz - dialAt(fit, a).hz) < 0 || sign * (hz - dialAt(fit, b).hz) > 0) return undefined;
  for (let i = 0; i < 50; i++) {
    const m = (a + b) / 2;
    if (sign * (dialAt(fit, m).hz - hz) < 0) a = m;
    else b = m;
  }
  return (a + b) / 2;
}
/** Readings between which the fit speaks: the points and a twentieth of their span beyond. */
export const reach = (fit: DialFit): readonly [number, number] => {
  const more = 0.05 * (fit.high - fit.low);
  return [fit.low - more, fit.high + more];
};

/** Backlash, divisions: mean and standard uncertainty. From points of one side only it is what was expected. */
export function backlashOf(fit: DialFit): { readonly value: number; readonly u: number } {
  row.fill(0);
  row[smoothTerms] = 1;
  let mean = 0;
  let second = 0;
  for (const p of fit.parts) {
    const m = dot(p);
    mean += p.weight * m;
    second += p.weight * (m * m + varianceOf(p));
  }
  return { value: fit.scaling.backlash + mean, u: Math.sqrt(Math.max(0, second - mean * mean)) };
}

function isMonotone(fit: DialFit): boolean {
  let last = dialAt(fit, fit.low).hz;
  const sign = Math.sign(dialAt(fit, fit.high).hz - last);
  for (let i = 1; i <= 60; i++) {
    const { hz } = dialAt(fit, fit.low + ((fit.high - fit.low) * i) / 60);
    if (sign * (hz - last) <= 0) return false;
    last = hz;
  }
  return true;
}

/** One draw of the whole law: a part by chance, its coefficients by chance. */
export interface DialDraw {
  readonly hzAt: (reading: number, approach?: number) => number;
  /** the same along readings that were laid out beforehand */
  readonly fill: (along: DialAxis, into: Float64Array) => void;
}
/** Readings with their basis laid out once, for many draws. */
export interface DialAxis {
  readonly rows: Float64Array;
  readonly shifts: Float64Array;
}
export function dialAxis(fit: DialFit, readings: ArrayLike<number>): DialAxis {
  const rows = new Float64Array(readings.length * terms);
  const shifts = new Float64Array(readings.length);
  for (let i = 0; i < readings.length; i++) {
    shifts[i] = load(fit, readings[i], fit.side);
    rows.set(row, i * terms);
  }
  return { rows, shifts };
}
/**
 * Draws a law from the fit.
 *
 * @param fit the fit
 * @param which chance of the part, 0 to 1
 * @param xi standard normals, one a coefficient: `dialChances` of them
 * @param widening factor on the law's own uncertainty
 */
export function drawDial(fit: DialFit, which: number, xi: ArrayLike<number>, widening: number): DialDraw {
  let k = 0;
  for (let left = which; k < fit.parts.length - 1 && left > fit.parts[k].weight; k++) left -= fit.parts[k].weight;
  const part = fit.parts[k];
  const v = Float64Array.from({ length: terms }, (_, i) => xi[i] * widening);
  backSolve(part.factor, v, terms);
  const w = v.map((x, i) => (x + part.mean[i]) * part.size[i]);
  return {
    hzAt: (reading, approach = fit.side) => {
      const shift = load(fit, reading, approach);
      let z = shift;
      for (let i = 0; i < terms; i++) z += row[i] * w[i];
      return hzOf(z, fit);
    },
    fill: ({ rows, shifts }, into) => {
      for (let i = 0; i < shifts.length; i++) {
        let z = shifts[i];
        for (let k = 0; k < terms; k++) z += rows[i * terms + k] * w[k];
        into[i] = hzOf(z, fit);
      }
    },
  };
}
export const dialChances = terms;
