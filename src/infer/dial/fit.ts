import { normalEquations, posterior } from "../../numerics/bayes-linear";
import type { Conversion } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { bad, good, type Read } from "../../units/issue";
import { endsBeforehand, expectedWithin, sizesBeforehand } from "./beforehand";
import { stiffBends } from "./evidence";
import type { DialFit, Part } from "./fitted";
import { type DialAssumed, design, leansOn, oneWay, type Prepared, prepared, sizes, variances } from "./frame";
import { momentsOf } from "./moments";
import { isMonotone, spoken } from "./one-way";

const lengths = [0.3, 0.6, 1.2, 2.4];
const amplitudesDiv = [0, 0.1, 0.3, 1, 3];
const noises = [0.5, 0.7, 1, 1.4, 2];
/** tried besides, each as likely as the stated one, where readings scatter by far more than was stated */
const moreNoises = [2.8, 4, 5.6, 8, 11];
/** log-normal weight of the noise about what is stated: a factor of 1.45 is one standard deviation, common practice, no source */
export const noisePriorSigma = Math.log(1.45);
export const leastPoints = 2;
export const mostPoints = 400;

/**
 * Fits the law of a dial to zero beats: 1/f_osc^2 is a smooth function of the reading, a cubic and a smooth residual, with reading noise and
 * backlash; noise, length and size of the residual are averaged over a grid by how well each explains the points.
 *
 * @param points zero beats, outliers left out
 * @param conversion IF and side of the oscillator on this band
 * @param assumed noise and backlash to expect
 * @returns the fit, or what is wrong with the points
 * @source derived here: y = 1/(f + IF)^2 against reading, cubic and Matern-5/2 residual, hyperparameters averaged; linear
 * Bayesian regression, Rasmussen and Williams (2006) chapters 2 and 5
 */
export function fitDial(points: readonly DialPoint[], conversion: Conversion, assumed: DialAssumed): Read<DialFit> {
  if (points.length < leastPoints)
    return bad("points", "too-few", `${points.length} points`, `at least ${leastPoints} zero beats, at different readings`);
  if (points.length > mostPoints) return bad("points", "too-many", `${points.length} points`, `at most ${mostPoints} zero beats`);
  const ready = prepared(points, conversion, assumed);
  if (!ready.ok) return ready;
  const { scaling, low, high } = ready.value;
  const parts = weighed(points, conversion, assumed, ready.value);
  const whole = leansOn(points, assumed);
  const fit: DialFit = {
    points,
    conversion,
    low,
    high,
    reach: [low - 0.05 * (high - low), high + 0.05 * (high - low)],
    leans: whole !== undefined,
    side: Math.sign(points.reduce((s, p) => s + p.approach, 0)) as -1 | 0 | 1,
    parts,
    ...momentsOf(parts),
    readingNoise: parts.reduce((s, p) => s + p.weight * p.noise, 0),
    scaling,
  };
  if (!isMonotone(fit)) return oneWay(`${points.length} points`);
  return good(whole ? { ...fit, reach: spoken(fit, whole.scale, expectedWithin(points, whole)) } : fit);
}

/** Posteriors over the grid of hyperparameters, those that weigh anything. */
function weighed(points: readonly DialPoint[], conversion: Conversion, assumed: DialAssumed, p: Prepared): Part[] {
  const { scaling, z, slopes, typical } = p;
  const whole = leansOn(points, assumed);
  // bends are thought of in hundredths of a scale, whatever it is marked in
  const unit = whole ? (2 * scaling.half) / 100 : (assumed.division ?? 1);
  const ends = whole ? endsBeforehand(points, whole, scaling, conversion) : [];
  const rows = [...design(points, slopes, scaling), ...ends.map((e) => e.row)];
  const target = [...points.map((q, i) => z[i] + 0.5 * q.approach * slopes[i] * assumed.backlash), ...ends.map((e) => e.target)];
  const parts: Weighed[] = [];
  const add = (grid: readonly Hyper[], noise: number): void => {
    const variance = [...variances(points, p, noise, assumed), ...ends.map((e) => e.variance)];
    const g = normalEquations(rows, target, variance);
    for (const h of grid) {
      const size = whole
        ? sizesBeforehand(h.length, h.amplitude, assumed.backlashU, scaling)
        : sizes(h.length, h.amplitude, assumed.backlashU);
      const found = posterior(g, size);
      if (found) parts.push({ ...h, size, mean: found.mean, factor: found.factor, log: found.log + Math.log(h.weight) });
    }
  };
  const { held } = assumed;
  if (held) add([heaviest(held.parts, (h) => h.weight)], heaviest(held.parts, (h) => h.weight).noise);
  else {
    for (const n of [...noises, ...(assumed.scatter ? moreNoises : [])])
      add(hyperparameters(n, assumed, typical * unit), n * assumed.readingNoise);
  }
  const best = Math.max(...parts.map((q) => q.log));
  const kept = parts.map((q) => ({ ...q, weight: Math.exp(q.log - best) })).filter((q) => q.weight > 1e-3);
  const sum = kept.reduce((s, q) => s + q.weight, 0);
  return kept.map(({ log: _, ...q }) => ({ ...q, weight: q.weight / sum }));
}

interface Hyper {
  readonly weight: number;
  readonly length: number;
  readonly amplitude: number;
  readonly noise: number;
}
type Weighed = Part & { readonly log: number };
/**
 * Grid of lengths and sizes (divisions, turned into z by the typical slope) at one noise, with what each weighs beforehand. Where readings scatter by more
 * than was stated any noise is as likely, and a law that wriggles through each of them must not hide it.
 */
function hyperparameters(timesNoise: number, { readingNoise, scatter }: DialAssumed, typicalSlope: number): Hyper[] {
  const out: Hyper[] = [];
  const noiseWeight = scatter && timesNoise > 1 ? 1 : Math.exp(-0.5 * (Math.log(timesNoise) / noisePriorSigma) ** 2);
  for (const amplitude of scatter ? [0, ...stiffBends] : amplitudesDiv)
    for (const length of amplitude === 0 ? [1] : lengths) {
      const weight = noiseWeight / (amplitude === 0 ? 1 : lengths.length);
      out.push({ weight, length, amplitude: amplitude * typicalSlope, noise: timesNoise * readingNoise });
    }
  return out;
}

/** The likeliest part. */
const heaviest = <P extends Hyper>(parts: readonly P[], by: (p: P) => number): P => parts.reduce((a, b) => (by(b) > by(a) ? b : a));
