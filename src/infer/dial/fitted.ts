import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import { transposedSolveInPlace } from "../../numerics/bayes-linear";
import { smoothBasis, smoothSlopes, smoothTerms } from "../../numerics/smooth-basis";
import { type Conversion, signalHz } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";

/** One set of hyperparameters with its posterior, whitened: coefficients are `mean` + `factor`^-T xi, times `size`. */
export interface Part {
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
  /** readings between which it speaks: a twentieth of the points' span beyond them, or the scale where it leans on what is known of that */
  readonly reach: readonly [number, number];
  /** whether it leans on what was expected of the dial beforehand: few beats, a wide law */
  readonly leans: boolean;
  /** side that most points were approached from: readings are meant so unless said otherwise */
  readonly side: -1 | 0 | 1;
  readonly parts: readonly Part[];
  /** reading noise, divisions: mean over the parts */
  readonly readingNoise: number;
  readonly scaling: Scaling;
}
export interface Scaling {
  readonly middle: number;
  readonly half: number;
  readonly oscillatorHz: number;
  readonly yMiddle: number;
  readonly yHalf: number;
  readonly backlash: number;
  /** the law is smooth in the oscillator's frequency to the minus this: 2, as a capacitor has it, unless it leans on expectations */
  readonly power: number;
}

/** coefficients of a law: cubic, sines, backlash */
export const dialTerms = smoothTerms + 1;
/**
 * The law's own uncertainty is widened by this, so that on 19 dials of 20 the 95 % interval holds over at least 88 % of the scale: errors along one
 * scale go together, and an interval that is right on the average holds over much less of the worst dial. Measured on invented
 * dials (docs/proof.md); the chance of passing an edge needs no widening there.
 */
export const dialWidening = 1.35;
/** The same where the law leans on expectations: those are wide already. */
const leaningWidening = 1.2;
export const wideningOf = (fit: DialFit): number => (fit.leans ? leaningWidening : dialWidening);

/** Where an oscillator frequency lies in the coordinate that the law is linear in. */
export const zOf = (oscHz: number, s: Scaling): number => ((s.oscillatorHz / oscHz) ** s.power - s.yMiddle) / s.yHalf;
export const placeOf = (reading: number, s: Scaling): number => (reading - s.middle) / s.half;

const row = new Float64Array(dialTerms);
const solved = new Float64Array(dialTerms);
const dot = (p: Part): number => {
  let s = 0;
  for (let i = 0; i < dialTerms; i++) s += row[i] * p.size[i] * p.mean[i];
  return s;
};
/** Variance of the smooth law under one part, for the row that is loaded. */
const varianceOf = (p: Part): number => {
  let v = 0;
  for (let i = 0; i < dialTerms; i++) {
    let s = row[i] * p.size[i];
    for (let k = 0; k < i; k++) s -= p.factor[i * dialTerms + k] * solved[k];
    solved[i] = s / p.factor[i * dialTerms + i];
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
/**
 * dz/d(reading) of the fitted law.
 *
 * @source derivative of the fitted polynomial and sines
 */
export function slopeInZ(fit: DialFit, reading: number): number {
  load(fit, reading, 0);
  return loadedSlope;
}
const hzOf = (z: number, fit: DialFit): number => {
  const { yMiddle, yHalf, power, oscillatorHz: middle } = fit.scaling;
  return signalHz(middle * Math.max(1e-9, yMiddle + yHalf * z) ** (-1 / power), fit.conversion);
};
/** df/dz at a z, Hz. */
const leverage = (z: number, fit: DialFit): number => {
  const { yMiddle, yHalf, power, oscillatorHz: middle } = fit.scaling;
  return (-middle * yHalf * Math.max(1e-9, yMiddle + yHalf * z) ** (-1 / power - 1)) / power;
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
 * @source the fit's mean and variance, carried to frequency to first order
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
 * With few zero beats the parts of the fit leave long tails, and a setting asked to be sure at 99 % is surer than that. What each part is wide by is
 * narrowed for them, so that on invented dials at most 1 % are still outside (docs/proof.md).
 */
const withFewBeats = (count: number): number => (count >= 10 ? 1 : 1 - (0.12 * (10 - Math.max(6, count))) / 4);

/**
 * Chance that the dial, set to a reading once more, stands below a frequency: the law's doubt, the reading noise of the setting, and the rest.
 * Between 401 readings laid out along the fit's reach the law is taken as straight, which is off by less than a ten-thousandth of its bend.
 *
 * @param fit the fit
 * @param reading scale, divisions, within the fit's reach
 * @param edgeHz frequency, Hz
 * @param otherHz standard deviation of what neither law nor reading holds: marker, drift, Hz
 * @param approach side that the setting is made from; the fit's own where it is not said
 * @returns 0 to 1, over all parts of the fit
 * @source normal parts of the fit, weighted: Bayesian model average
 */
export function chanceBelow(fit: DialFit, reading: number, edgeHz: number, otherHz: number, approach: number = fit.side): number {
  const { from, step, hz, uHz } = spreadOf(fit, approach);
  const at = Math.min(spreadPoints - 1.000001, Math.max(0, (reading - from) / step));
  const i = Math.floor(at);
  const t = at - i;
  const narrowing = fit.leans ? wideningOf(fit) : withFewBeats(fit.points.length);
  let chance = 0;
  for (let k = 0; k < hz.length; k++) {
    const mean = hz[k][i] * (1 - t) + hz[k][i + 1] * t;
    const u = uHz[k][i] * (1 - t) + uHz[k][i + 1] * t;
    chance += fit.parts[k].weight * normalCdf(edgeHz, mean, Math.hypot(narrowing * u, otherHz));
  }
  return chance;
}

/**
 * Slope of the dial at a reading, Hz a division.
 *
 * @source derivative of the fitted law, carried to frequency
 */
export function dialSlope(fit: DialFit, reading: number): number {
  const d = 1e-3 * fit.scaling.half;
  return (dialAt(fit, reading + d).hz - dialAt(fit, reading - d).hz) / (2 * d);
}

/**
 * Reading at which the dial stands at a frequency; undefined beyond the points by more than a twentieth of their span.
 *
 * @source bisection on the fitted law
 */
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
/** Readings between which the fit speaks. */
export const reach = (fit: DialFit): readonly [number, number] => fit.reach;

/**
 * How far along a scale a law that leans on expectations may speak: from its points outwards while it goes on one way, at no less than a seventh of the
 * slope that it has among them.
 *
 * @param fit the fit
 * @param scale ends of the scale, divisions
 * @param withinHz frequencies that the dial is expected to keep within, Hz
 * @returns readings, the lower first
 * @source house rule: beyond, the law would turn round, and a reading would have two frequencies
 */
export function spoken(
  fit: DialFit,
  scale: readonly [number, number],
  withinHz: readonly [number, number] = [0, Number.POSITIVE_INFINITY],
): readonly [number, number] {
  const steps = 60;
  const typical = slopeInZ(fit, (fit.low + fit.high) / 2);
  const step = (scale[1] - scale[0]) / steps;
  const sound = (r: number): boolean => {
    const { hz } = dialAt(fit, r);
    return slopeInZ(fit, r) / typical > 1 / 7 && hz > withinHz[0] && hz < withinHz[1];
  };
  let [from, to] = [fit.low, fit.high];
  while (from - step >= scale[0] - 1e-9 && sound(from - step)) from -= step;
  while (to + step <= scale[1] + 1e-9 && sound(to + step)) to += step;
  return [from, to];
}

/**
 * Backlash, divisions: mean and standard uncertainty. From points of one side only it is what was expected.
 *
 * @source the fit's own coefficient: mixture of normal parts
 */
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

/**
 * Whether the law goes one way along its points.
 *
 * @source definition
 */
export function isMonotone(fit: DialFit): boolean {
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
  const rows = new Float64Array(readings.length * dialTerms);
  const shifts = new Float64Array(readings.length);
  for (let i = 0; i < readings.length; i++) {
    shifts[i] = load(fit, readings[i], fit.side);
    rows.set(row, i * dialTerms);
  }
  return { rows, shifts };
}
/**
 * Draws a law from the fit.
 *
 * @param fit the fit
 * @param which chance of the part, 0 to 1
 * @param xi standard normals, one a coefficient: `dialTerms` of them
 * @param widening factor on the law's own uncertainty
 */
export function drawDial(fit: DialFit, which: number, xi: ArrayLike<number>, widening: number): DialDraw {
  let k = 0;
  for (let left = which; k < fit.parts.length - 1 && left > fit.parts[k].weight; k++) left -= fit.parts[k].weight;
  const part = fit.parts[k];
  const v = Float64Array.from({ length: dialTerms }, (_, i) => xi[i] * widening);
  transposedSolveInPlace(part.factor, v, dialTerms);
  const w = v.map((x, i) => (x + part.mean[i]) * part.size[i]);
  return {
    hzAt: (reading, approach = fit.side) => {
      const shift = load(fit, reading, approach);
      let z = shift;
      for (let i = 0; i < dialTerms; i++) z += row[i] * w[i];
      return hzOf(z, fit);
    },
    fill: ({ rows, shifts }, into) => {
      for (let i = 0; i < shifts.length; i++) {
        let z = shifts[i];
        for (let k = 0; k < dialTerms; k++) z += rows[i * dialTerms + k] * w[k];
        into[i] = hzOf(z, fit);
      }
    },
  };
}
