/**
 * What a pass band is worth: peak, widths, noise bandwidth and what is left of AM audio. Every figure comes from bracketing and halving
 * on the exact response, never from a drawn grid.
 */
import { areApart } from "../numerics/apart";

/** Power response |H|^2 at a frequency in Hz; `complexAt` leaves the complex gain in `re` and `im`. */
export interface Response {
  at(hz: number): number;
  complexAt(hz: number): void;
  readonly re: number;
  readonly im: number;
}

/** Offsets from a centre, in Hz, close together near it: 4 Hz growing by 7 % a step. */
const firstOffsetHz = 4;
const growth = 1.07;
const offsets = (farHz: number): Float64Array => {
  const n = Math.ceil(Math.log(farHz / firstOffsetHz) / Math.log(growth));
  return Float64Array.from({ length: n + 1 }, (_, k) => Math.min(farHz, firstOffsetHz * growth ** k));
};
const farRatio = 0.45;
const cache = new Map<number, Float64Array>();
const offsetsFor = (centreHz: number): Float64Array => {
  const farHz = Math.round(centreHz * farRatio);
  let o = cache.get(farHz);
  if (!o) {
    o = offsets(farHz);
    cache.set(farHz, o);
  }
  return o;
};

export interface Peak {
  hz: number;
  power: number;
}

/**
 * The highest point of a response.
 *
 * @param r response
 * @param hintsHz frequencies that a narrow peak may lie near
 * @returns frequency to about 0.01 Hz, and power there
 * @source golden-section search, textbook algorithm
 */
export function peakOf(r: Response, hintsHz: readonly number[]): Peak {
  let hz = hintsHz[0];
  let power = r.at(hz);
  let gap = firstOffsetHz;
  for (const hint of hintsHz) {
    const grid = offsetsFor(hint);
    for (let k = -1; k < grid.length && (k < 0 || grid[k] <= hint * 0.1); k++) {
      for (let side = -1; side <= 1; side += 2) {
        const f = k < 0 ? hint : hint + side * grid[k];
        const p = r.at(f);
        if (p > power) {
          power = p;
          hz = f;
          gap = k < 0 ? firstOffsetHz : Math.max(firstOffsetHz, grid[k] * (growth - 1));
        }
      }
    }
  }
  const ratio = (Math.sqrt(5) - 1) / 2;
  let a = hz - 1.5 * gap;
  let b = hz + 1.5 * gap;
  let x1 = b - ratio * (b - a);
  let x2 = a + ratio * (b - a);
  let p1 = r.at(x1);
  let p2 = r.at(x2);
  while (areApart(a, b, 0.02)) {
    if (p1 > p2) {
      b = x2;
      x2 = x1;
      p2 = p1;
      x1 = b - ratio * (b - a);
      p1 = r.at(x1);
    } else {
      a = x1;
      x1 = x2;
      p1 = p2;
      x2 = a + ratio * (b - a);
      p2 = r.at(x2);
    }
  }
  hz = (a + b) / 2;
  return { hz, power: r.at(hz) };
}

/**
 * Outermost frequency on one side of the peak where the response falls through a level.
 *
 * @param r response
 * @param peak its peak
 * @param levelDb level below the peak, dB, positive
 * @param side -1 below the peak, 1 above
 * @returns Hz; NaN where the response has not fallen that far 45 % away from the peak
 * @source definition of bandwidth at a level (outermost crossings, relative to the peak)
 */
export function crossingHz(r: Response, peak: Peak, levelDb: number, side: -1 | 1): number {
  const level = peak.power * 10 ** (-levelDb / 10);
  const grid = offsetsFor(peak.hz);
  let k = grid.length - 1;
  if (r.at(peak.hz + side * grid[k]) > level) return Number.NaN;
  while (k > 0 && r.at(peak.hz + side * grid[k - 1]) <= level) k--;
  let out = grid[k];
  let inside = k > 0 ? grid[k - 1] : 0;
  while (areApart(inside, out, 1e-7 * out + 1e-4)) {
    const mid = (out + inside) / 2;
    if (r.at(peak.hz + side * mid) <= level) out = mid;
    else inside = mid;
  }
  return peak.hz + (side * (out + inside)) / 2;
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

const gaussAt = [-0.7745966692414834, 0, 0.7745966692414834];
const gaussWeight = [5 / 9, 8 / 9, 5 / 9];

/**
 * Integral of the power response over a range, in segments that are short near a centre.
 *
 * @param r response
 * @param centreHz where the response is narrow
 * @param fromHz lower end
 * @param toHz upper end
 * @returns integral of |H|^2 df, Hz
 * @source three-point Gauss-Legendre quadrature, textbook rule
 */
export function powerIntegralHz(r: Response, centreHz: number, fromHz: number, toHz: number): number {
  const grid = offsetsFor(centreHz);
  let sum = 0;
  for (let side = -1; side <= 1; side += 2) {
    for (let k = 0; k < grid.length; k++) {
      const near = k === 0 ? 0 : grid[k - 1];
      let a = centreHz + (side < 0 ? -grid[k] : near);
      let b = centreHz + (side < 0 ? -near : grid[k]);
      a = Math.max(a, fromHz);
      b = Math.min(b, toHz);
      if (b <= a) continue;
      const half = (b - a) / 2;
      for (let g = 0; g < 3; g++) sum += gaussWeight[g] * half * r.at((a + b) / 2 + half * gaussAt[g]);
    }
  }
  return sum;
}

/**
 * Noise bandwidth: the width of the ideal filter of the same peak that passes the same white noise power.
 *
 * @param r response
 * @param peak its peak
 * @returns Hz
 * @source definition, integral of |H|^2 / |H|^2 peak; factors of tuned circuits checked in passband.published.test.ts
 */
export const noiseBandwidthHz = (r: Response, peak: Peak): number =>
  powerIntegralHz(r, peak.hz, peak.hz * (1 - farRatio), peak.hz * (1 + farRatio)) / peak.power;

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
  const cRe = r.re;
  const cIm = r.im;
  const c2 = cRe * cRe + cIm * cIm;
  r.complexAt(carrierHz + pitchHz);
  let re = r.re * cRe + r.im * cIm;
  let im = r.im * cRe - r.re * cIm;
  r.complexAt(carrierHz - pitchHz);
  re += r.re * cRe + r.im * cIm;
  im += -(r.im * cRe - r.re * cIm);
  return Math.hypot(re, im) / (2 * c2);
}

/**
 * Pitch at which AM audio is 3.01 dB down after an envelope detector.
 *
 * @param r response
 * @param carrierHz carrier, Hz
 * @returns Hz, the lowest such pitch; NaN above 30 kHz
 * @source half-power point of amAudioRatio
 */
export function amAudioBandwidthHz(r: Response, carrierHz: number): number {
  const half = Math.SQRT1_2;
  let below = 2;
  for (let pitch = 4; pitch < 30_000; pitch *= 1.08) {
    if (amAudioRatio(r, carrierHz, pitch) < half) {
      let above = pitch;
      while (areApart(below, above, 1e-6 * above)) {
        const mid = (above + below) / 2;
        if (amAudioRatio(r, carrierHz, mid) < half) above = mid;
        else below = mid;
      }
      return (above + below) / 2;
    }
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
