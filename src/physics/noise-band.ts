/** What noise a pass band lets through: of a band of audio, and of the whole. */
import { farRatio, type Peak } from "./passband";
import { looks, mostLooks, powersAt, type Response } from "./response";

/** Nodes and weights of Gauss and Legendre's rule of eight points on -1 to 1. */
const gaussAt = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363];
const gaussWeight = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763];
/** Segments: 8 Hz, then as long as their distance; never over 400 Hz within 8 kHz, where humps and the edges of a filter lie. */
const firstSegmentHz = 8;
const longestSegmentHz = 400;
const audioToHz = 8000;

/**
 * Integral of the power response over a band of audio, in segments that are short near a centre.
 *
 * @param r response
 * @param centreHz where the response is narrow
 * @param fromHz lower end
 * @param toHz upper end
 * @returns integral of |H|^2 df, Hz, no further out than 45 % of the centre; to some parts in 10^8
 * @source Gauss-Legendre quadrature of eight points, textbook rule; against Simpson's in passband.property.test.ts
 */
export function powerIntegralHz(r: Response, centreHz: number, fromHz: number, toHz: number): number {
  let sum = 0;
  let n = 0;
  for (let side = -1; side <= 1; side += 2) {
    const begin = Math.max(0, side < 0 ? centreHz - toHz : fromHz - centreHz);
    const end = Math.min(farRatio * centreHz, side < 0 ? centreHz - fromHz : toHz - centreHz);
    let near = 0;
    let length = firstSegmentHz;
    while (near < end) {
      const a = Math.max(near, begin);
      const b = Math.min(near + length, end);
      if (b > a) {
        const half = (b - a) / 2;
        const middle = centreHz + (side * (a + b)) / 2;
        for (let g = 0; g < 4; g++) {
          looks.hz[n] = middle - half * gaussAt[g];
          weights[n++] = gaussWeight[g] * half;
          looks.hz[n] = middle + half * gaussAt[g];
          weights[n++] = gaussWeight[g] * half;
        }
        if (n > mostLooks - 8) {
          sum += weighed(r, n);
          n = 0;
        }
      }
      near += length;
      length = near < audioToHz ? Math.min(longestSegmentHz, near) : Math.min(near / 2, 1.5 * length);
    }
  }
  return sum + weighed(r, n);
}
/** What each look counts for in a sum: nothing in it lasts from one to the next. */
const weights = new Float64Array(mostLooks);
/** The sum over the first so many looks. */
function weighed(r: Response, count: number): number {
  const { power } = looks;
  powersAt(r, looks.hz, power, count);
  let sum = 0;
  for (let i = 0; i < count; i++) sum += weights[i] * power[i];
  return sum;
}

/**
 * Noise bandwidth: the width of the ideal filter of the same peak that passes the same white noise power.
 *
 * @param r response
 * @param peak its peak
 * @returns Hz; not a number where the peak is none
 * Distances x = D s sinh u / sqrt(D^2 + (s sinh u)^2), evenly in u: the trapezoidal rule then gains as many digits again with each halving.
 *
 * @source definition, integral of |H|^2 / |H|^2 peak over 45 % to each side; factors of tuned circuits checked in passband.published.test.ts,
 *   the rule against Simpson's in passband.property.test.ts
 */
export function noiseBandwidthHz(r: Response, peak: Peak): number {
  const farHz = peak.hz * farRatio;
  // where a search found no peak there is nothing to go out from
  if (!(farHz > 0 && Number.isFinite(farHz) && peak.power > 0)) return Number.NaN;
  // the peak itself is the middle of both sides
  const middle = peak.power * scaleHz;
  let step = firstStep;
  let sum = middle + stepsOut(r, peak, farHz, step, step);
  for (;;) {
    const between = stepsOut(r, peak, farHz, step / 2, step);
    const finer = (sum + between) / 2;
    const isNear = Math.abs(finer * step - sum * step) < nearEnough * finer * step;
    sum += between;
    step /= 2;
    if (isNear || step < lastStep) return (sum * step) / peak.power;
  }
}
/** Distances go as a hyperbolic sine of even steps near the peak, and end at the farthest one: scale, first and least step. */
const scaleHz = 16;
const firstStep = 0.4;
const lastStep = 0.002;
/** Steps half as long square the error: where they change so little, what is left is under a part in 10^9. */
const nearEnough = 2e-5;
const nothing = 1e-13;
/** Some steps beyond this the exponential of u is no number any more. */
const mostU = 690;

/** Steps are looked at so many at a time. */
const stepsAtOnce = 32;
/** Power times the length that each step stands for, on both sides together, from a first step on until nothing more comes. */
function stepsOut(r: Response, peak: Peak, farHz: number, first: number, step: number): number {
  const { hz, power } = looks;
  const beyond = Math.log((2 * farHz) / scaleHz);
  const grows = Math.exp(step);
  let sum = 0;
  let grown = Math.exp(first);
  for (let k = 0; first + k * step < mostU; ) {
    const from = k;
    for (let n = 0; n < stepsAtOnce; n++, k++, grown *= grows) {
      const sinh = scaleHz * (grown - 1 / grown) * 0.5;
      const cosh = scaleHz * (grown + 1 / grown) * 0.5;
      const part = sinh / farHz;
      const shrink = 1 / Math.sqrt(1 + part * part);
      hz[2 * n] = peak.hz - sinh * shrink;
      hz[2 * n + 1] = peak.hz + sinh * shrink;
      weights[n] = cosh * shrink * shrink * shrink;
    }
    powersAt(r, hz, power, 2 * stepsAtOnce);
    for (let n = 0; n < stepsAtOnce; n++) {
      const here = (power[2 * n] + power[2 * n + 1]) * weights[n];
      sum += here;
      if (first + (from + n) * step > beyond && !(here > nothing * (sum + peak.power * scaleHz))) return sum;
    }
  }
  return sum;
}
