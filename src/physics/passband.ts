/**
 * What a pass band is worth: peak, widths and what is left of AM audio; its noise is in noise-band.ts. Every figure comes from bracketing and closing in
 * on the exact response, never from a drawn grid.
 */
import { areApart } from "../numerics/apart";
import { rootBetween } from "../numerics/root";
import type { Response } from "./response";

/** Looks go out from a centre in steps: 4 Hz, then 12 % further each time for a peak, and come in by 7 % each time for an outermost crossing. */
const firstOffsetHz = 4;
const growth = 1.12;
const inward = 1.07;
/** How near a crossing is told, as a part of its distance. */
const finestPart = 1e-9;
/** How far from a centre anything is looked for, as a part of it. */
export const farRatio = 0.45;
/** How far a peak may lie from a hint, as a part of it. */
const nearRatio = 0.1;

export interface Peak {
  readonly hz: number;
  readonly power: number;
}

/**
 * The highest point of a response.
 *
 * @param r response
 * @param hintsHz frequencies that a narrow peak may lie near
 * @returns frequency to about 0.01 Hz, and power there
 * @source Brent's search for a maximum from the best looks below and above the hints
 */
export function peakOf(r: Response, hintsHz: readonly number[]): Peak {
  const low = { hz: 0, power: 0, gap: 0 };
  const high = { hz: 0, power: 0, gap: 0 };
  for (const hint of hintsHz) {
    const at = r.at(hint);
    if (at > low.power) put(low, hint, at, firstOffsetHz);
    // what lies far from a second hint the first has looked at
    const reach = hint === hintsHz[0] ? hint * nearRatio : Math.max(100, 2 * Math.abs(hint - hintsHz[0]));
    for (let d = firstOffsetHz; d <= reach; d *= growth) {
      const gap = Math.max(firstOffsetHz, d * (growth - 1));
      const below = r.at(hint - d);
      if (below > low.power) put(low, hint - d, below, gap);
      const above = r.at(hint + d);
      if (above > high.power) put(high, hint + d, above, gap);
    }
  }
  const [best, other] = low.power >= high.power ? [low, high] : [high, low];
  const peak = highestHz(r, best);
  // two humps of nearly one height: looks do not tell which is the higher one
  if (other.power < 0.9 * best.power || Math.abs(other.hz - peak.hz) < 1.5 * best.gap) return peak;
  const second = highestHz(r, other);
  return second.power > peak.power ? second : peak;
}
interface Look {
  hz: number;
  power: number;
  gap: number;
}
function put(look: Look, hz: number, power: number, gap: number): void {
  look.hz = hz;
  look.power = power;
  look.gap = gap;
}

const golden = (3 - Math.sqrt(5)) / 2;
const peakToHz = 0.005;
/** The maximum beside a look. Source: R. P. Brent, parabolas through the three best points, golden section where they fail. */
function highestHz(r: Response, { hz: from, power, gap }: Look): Peak {
  let [a, b] = [from - 1.5 * gap, from + 1.5 * gap];
  let [x, w, v] = [from, from, from];
  let [px, pw, pv] = [power, power, power];
  let [step, before] = [0, 0];
  while (areApart(a, b, 4 * peakToHz) && Math.abs(x - (a + b) / 2) + (b - a) / 2 > 2 * peakToHz) {
    const middle = (a + b) / 2;
    const q1 = (x - w) * (px - pv);
    const q2 = (x - v) * (px - pw);
    const under = 2 * (q2 - q1);
    const parabola = under === 0 ? Number.NaN : -((x - v) * q2 - (x - w) * q1) / under;
    const taken = Math.abs(parabola) < Math.abs(before) / 2 && x + parabola > a && x + parabola < b;
    before = taken ? step : (x < middle ? b : a) - x;
    step = taken ? parabola : golden * before;
    const u = x + (Math.abs(step) >= peakToHz ? step : step < 0 ? -peakToHz : peakToHz);
    const pu = r.at(u);
    if (pu >= px) {
      if (u < x) b = x;
      else a = x;
      [v, w, x] = [w, x, u];
      [pv, pw, px] = [pw, px, pu];
    } else {
      if (u < x) a = u;
      else b = u;
      if (pu >= pw || w === x) {
        [v, w] = [w, u];
        [pv, pw] = [pw, pu];
      } else if (pu >= pv || v === x || v === w) [v, pv] = [u, pu];
    }
  }
  return { hz: x, power: px };
}

/**
 * Outermost frequency on one side of the peak where the response falls through a level.
 *
 * @param r response
 * @param peak its peak
 * @param levelDb level below the peak, dB, positive
 * @param side -1 below the peak, 1 above
 * @returns Hz, to a part in 10^9 of its distance; NaN where the response has not fallen that far 45 % away from the peak
 * @source definition of bandwidth at a level (outermost crossings, relative to the peak)
 */
export function crossingHz(r: Response, peak: Peak, levelDb: number, side: -1 | 1): number {
  const level = peak.power * 10 ** (-levelDb / 10);
  let out = peak.hz * farRatio;
  if (r.at(peak.hz + side * out) > level) return Number.NaN;
  let inside = out / inward;
  while (inside > firstOffsetHz && r.at(peak.hz + side * inside) <= level) {
    out = inside;
    inside /= inward;
  }
  const over = (offset: number): number => Math.log(r.at(peak.hz + side * offset) / level);
  return peak.hz + side * rootBetween(over, inside > firstOffsetHz ? inside : 0, out, finestPart * out);
}

/**
 * Width between the outermost crossings of a level.
 *
 * @param r response
 * @param peak its peak
 * @param levelDb level below the peak, dB, positive
 * @returns Hz; NaN where a side does not reach the level
 * @source definition of bandwidth at a level
 */
export const widthHz = (r: Response, peak: Peak, levelDb: number): number =>
  crossingHz(r, peak, levelDb, 1) - crossingHz(r, peak, levelDb, -1);

/**
 * Relative level of AM audio of one pitch after an envelope detector, at small modulation: half the sum of the two sidebands, each
 * turned back by the carrier's phase.
 *
 *     A(fm) = |H(fc + fm) conj(H(fc)) + conj(H(fc - fm)) H(fc)| / (2 |H(fc)|^2)
 *
 * @param r response
 * @param carrierHz carrier, Hz
 * @param pitchHz audio frequency, Hz
 * @returns ratio, 1 at low pitch
 * @source first-order envelope of a carrier with two sidebands, derived; limit of a symmetric filter is |H(fc + fm)/H(fc)|
 */
export function amAudioRatio(r: Response, carrierHz: number, pitchHz: number): number {
  r.complexAt(carrierHz);
  return audioOver(r, carrierHz, pitchHz, r.re, r.im);
}
/** The same with the carrier's own gain known. */
function audioOver(r: Response, carrierHz: number, pitchHz: number, cRe: number, cIm: number): number {
  r.complexAt(carrierHz + pitchHz);
  let re = r.re * cRe + r.im * cIm;
  let im = r.im * cRe - r.re * cIm;
  r.complexAt(carrierHz - pitchHz);
  re += r.re * cRe + r.im * cIm;
  im += -(r.im * cRe - r.re * cIm);
  return Math.sqrt(re * re + im * im) / (2 * (cRe * cRe + cIm * cIm));
}

/** Audio is looked at from 4 Hz on, 8 % further each time, to 30 kHz. */
const firstPitchHz = 4;
const pitchGrowth = 1.08;
const lastPitchHz = 30_000;
/**
 * Pitch at which AM audio is 3.01 dB down after an envelope detector.
 *
 * @param r response
 * @param carrierHz carrier, Hz
 * @returns Hz, the lowest such pitch; NaN above 30 kHz
 * @source half-power point of amAudioRatio
 */
export function amAudioBandwidthHz(r: Response, carrierHz: number): number {
  r.complexAt(carrierHz);
  const { re, im } = r;
  const over = (pitchHz: number): number => audioOver(r, carrierHz, pitchHz, re, im) - Math.SQRT1_2;
  let below = firstPitchHz / 2;
  for (let pitch = firstPitchHz; pitch < lastPitchHz; pitch *= pitchGrowth) {
    if (over(pitch) < 0) return rootBetween(over, below, pitch, finestPart * pitch);
    below = pitch;
  }
  return Number.NaN;
}

/**
 * How far a signal beside the pass band is down: the worse of the two sides, relative to the peak.
 *
 * @param r response
 * @param centreHz what the distance counts from, Hz
 * @param distanceHz distance, Hz
 * @param peakPower power at the peak
 * @returns dB, positive
 * @source definition
 */
export function rejectionDb(r: Response, centreHz: number, distanceHz: number, peakPower: number): number {
  return 10 * Math.log10(peakPower / Math.max(r.at(centreHz - distanceHz), r.at(centreHz + distanceHz)));
}
