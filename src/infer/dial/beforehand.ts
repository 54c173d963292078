import { maternVariances, smoothBasis, smoothTerms } from "../../numerics/smooth-basis";
import { type Conversion, oscillatorHz } from "../../physics/dial-law";
import type { DialPoint } from "../../readings/zero-beats";
import { dialTerms, placeOf, type Scaling, zOf } from "./scaling";

/** What is known of a dial before its zero beats tell more: its scale, and the band that is said to lie on it. */
export interface DialBeforehand {
  /** ends of the scale, the lower reading first, divisions */
  readonly scale: readonly [number, number];
  /** ends of the band as described, the lower first, Hz: taken as lying at the ends of the scale, a sixth of it either way */
  readonly bandHz?: readonly [number, number];
  /** lean on it however many beats there are: for a law that must speak of the whole scale */
  readonly always?: boolean;
}
/**
 * A law that leans on expectations is smooth in f_osc^-1/2: a capacitor of straight capacitance and one of straight frequency bend it alike, one up and
 * one down, by half of what the oscillator's frequency changes to either side of the middle. The bend is expected to be of that size and, by the shape of
 * plates, somewhat more: standard deviations of its quadratic and cubic terms over half its run. Common practice, no source; that intervals hold with it
 * is measured on invented dials (docs/proof.md).
 */
const leaningPower = 0.5;
const plates = { quadratic: 0.13, cubic: 0.05 } as const;
/** part of the scale by which a band's described end may lie off the scale's own end, standard deviation; common practice, no source */
const endsOff = 1 / 5;
/** a described band is this dial's while the beats lie on it, or beyond it by so much of its width; common practice, no source */
const beside = 0.15;

/** The described band with what may lie beside it, Hz. */
const around = ([low, high]: readonly [number, number]): readonly [number, number] => [
  low - beside * (high - low),
  high + beside * (high - low),
];
/** The described band, where these beats can be its own. */
function ownBand(points: readonly DialPoint[], { bandHz }: DialBeforehand): readonly [number, number] | undefined {
  if (!bandHz) return undefined;
  const [low, high] = around(bandHz);
  return points.every((p) => p.frequencyHz >= low && p.frequencyHz <= high) ? bandHz : undefined;
}
/**
 * Frequencies that a law which leans on the described band may speak of.
 *
 * @param points zero beats
 * @param known what is known beforehand
 * @returns from and to, Hz; any frequency where the beats are on another band
 * @source common practice, no source
 */
export function expectedWithin(points: readonly DialPoint[], known: DialBeforehand): readonly [number, number] {
  const own = ownBand(points, known);
  return own ? around(own) : [0, Number.POSITIVE_INFINITY];
}
const line = (points: readonly DialPoint[], y: readonly number[]): { readonly slope: number; readonly at: (r: number) => number } => {
  const n = points.length;
  const r0 = points.reduce((s, p) => s + p.reading, 0) / n;
  const y0 = y.reduce((s, v) => s + v, 0) / n;
  const span = points.reduce((s, p) => s + (p.reading - r0) ** 2, 0);
  const slope = points.reduce((s, p, i) => s + (p.reading - r0) * (y[i] - y0), 0) / span;
  return { slope, at: (r) => y0 + slope * (r - r0) };
};

/**
 * The frame of a law that speaks of the whole scale: the band as described runs from -1 to 1 over it; where none is, the straight line through the beats.
 *
 * @param points zero beats, at two readings at least
 * @param osc oscillator frequency of each, Hz
 * @param known what is known beforehand
 * @param c conversion of the band
 * @param backlash expected, divisions
 * @returns scaling; undefined where the frequencies do not go one way
 * @source derived here
 */
export function wholeScale(
  points: readonly DialPoint[],
  osc: readonly number[],
  known: DialBeforehand,
  c: Conversion,
  backlash: number,
): Scaling | undefined {
  const middleHz = osc.reduce((s, f) => s + f, 0) / osc.length;
  const y = osc.map((f) => (middleHz / f) ** leaningPower);
  const readings = points.map((p) => p.reading);
  const [low, high] = [Math.min(known.scale[0], ...readings), Math.max(known.scale[1], ...readings)];
  const [middle, half] = [(low + high) / 2, (high - low) / 2];
  const through = line(points, y);
  if (!(Math.abs(through.slope) > 0)) return undefined;
  const bandHz = ownBand(points, known);
  const [y0, y1] = (bandHz ?? []).map((hz) => (middleHz / oscillatorHz(hz, c)) ** leaningPower);
  return {
    middle,
    half,
    oscillatorHz: middleHz,
    yMiddle: bandHz ? (y0 + y1) / 2 : through.at(middle),
    yHalf: bandHz ? Math.abs(y1 - y0) / 2 : Math.abs(through.slope) * half,
    backlash,
    power: leaningPower,
  };
}

/**
 * Prior standard deviations of all coefficients over the whole scale: line free, bend as expected, sines, backlash.
 *
 * @param length correlation length of the residual, in places
 * @param amplitudeZ its standard deviation, z
 * @param backlashU standard deviation of the backlash, divisions
 * @param s frame of the law
 * @returns length `dialTerms`
 * @source bends of plates are common practice, no source; sines by a Matern-5/2 covariance
 */
export function sizesBeforehand(length: number, amplitudeZ: number, backlashU: number, s: Scaling): Float64Array {
  const out = new Float64Array(dialTerms);
  const change = Math.min(0.5, s.yHalf / s.power);
  out.set([10, 10, Math.hypot(plates.quadratic, 0.65 * change), Math.hypot(plates.cubic, change ** 2 / 2)]);
  const variance = maternVariances(length, amplitudeZ);
  for (const [j, v] of variance.entries()) out[smoothTerms - variance.length + j] = Math.sqrt(v);
  out[smoothTerms] = backlashU;
  return out;
}

/**
 * The described band's ends as two more targets: each lies near an end of the scale.
 *
 * @param points zero beats
 * @param known what is known beforehand
 * @param s frame of the law
 * @param c conversion of the band
 * @returns rows, targets and variances in z; none where no band is described, or the beats lie on another
 * @source common practice, no source
 */
export function endsBeforehand(
  points: readonly DialPoint[],
  known: DialBeforehand,
  s: Scaling,
  c: Conversion,
): readonly { readonly row: Float64Array; readonly target: number; readonly variance: number }[] {
  const { scale } = known;
  const bandHz = ownBand(points, known);
  if (!bandHz) return [];
  const by = [...points].sort((a, b) => a.reading - b.reading);
  const [first, last] = [by[0], by[by.length - 1]];
  const rising = last.frequencyHz > first.frequencyHz;
  const run = (zOf(oscillatorHz(last.frequencyHz, c), s) - zOf(oscillatorHz(first.frequencyHz, c), s)) / (last.reading - first.reading);
  return scale.map((reading, i) => {
    const row = new Float64Array(dialTerms);
    smoothBasis(placeOf(reading, s), row);
    const hz = bandHz[rising ? i : 1 - i];
    return { row, target: zOf(oscillatorHz(hz, c), s), variance: (run * 2 * s.half * endsOff) ** 2 };
  });
}
