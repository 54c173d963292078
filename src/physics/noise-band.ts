/** What noise a pass band lets through: of a band of audio, and of the whole. */
import { farRatio, type Peak } from "./passband";
import { looks, mostLooks, powersAt, type Response } from "./response";

/** Nodes and weights of Gauss and Legendre's rule of six points on -1 to 1. */
const gaussAt = [0.2386191860831969, 0.6612093864662645, 0.932469514203152];
const gaussWeight = [0.467913934572691, 0.3607615730481386, 0.1713244923791704];
/** Segments: 8 Hz, then as long as their distance; never over 400 Hz within 8 kHz, where humps and the edges of a filter lie. */
const firstSegmentHz = 8;
const longestSegmentHz = 400;
const audioToHz = 8000;

/** A band beside a centre: its ends as distances from there, Hz, below zero below it. */
export interface BandBeside {
  readonly fromHz: number;
  readonly toHz: number;
}
/** Segments of one side out to 45 % of 30 MHz, and two sides of two bands. */
const mostNodes = 6 * 4 * 48;

/**
 * Integral of the power response over two bands of audio, in segments that are short near a centre. Where it looks is laid once for bands that stay as they
 * are beside their centre, and serves response after response.
 *
 * @source Gauss-Legendre quadrature of six points, textbook rule; against Simpson's in noise-band.crosscheck.test.ts
 */
export class BandPowers {
  /** integrals of |H|^2 df, Hz, of what was asked last */
  wanted = 0;
  other = 0;
  private readonly offset = new Float64Array(mostNodes);
  private readonly weight = new Float64Array(mostNodes);
  private firstOfOther = 0;
  private count = 0;
  private wantedFrom = Number.NaN;
  private wantedTo = Number.NaN;
  private otherFrom = Number.NaN;
  private otherTo = Number.NaN;
  private reachHz = Number.NaN;

  /**
   * @param r response
   * @param centreHz where the response is narrow
   * @param wanted one band
   * @param other the other one
   * Leaves both integrals in `wanted` and `other`, no further out than 45 % of the centre, to two parts in 10^6.
   */
  over(r: Response, centreHz: number, wanted: BandBeside, other: BandBeside): void {
    this.layFor(centreHz * farRatio, wanted, other);
    this.wanted = this.weighed(r, centreHz, 0, this.firstOfOther);
    this.other = this.weighed(r, centreHz, this.firstOfOther, this.count);
  }
  private layFor(farHz: number, wanted: BandBeside, other: BandBeside): void {
    const furthest = Math.max(-wanted.fromHz, wanted.toHz, -other.fromHz, other.toHz);
    const reach = Math.min(farHz, furthest);
    const same = wanted.fromHz === this.wantedFrom && wanted.toHz === this.wantedTo && other.fromHz === this.otherFrom;
    if (same && other.toHz === this.otherTo && reach === this.reachHz) return;
    this.wantedFrom = wanted.fromHz;
    this.wantedTo = wanted.toHz;
    this.otherFrom = other.fromHz;
    this.otherTo = other.toHz;
    this.reachHz = reach;
    this.count = 0;
    this.lay(wanted, reach);
    this.firstOfOther = this.count;
    this.lay(other, reach);
  }
  private lay({ fromHz, toHz }: BandBeside, reachHz: number): void {
    for (let side = -1; side <= 1; side += 2) {
      const begin = Math.max(0, side < 0 ? -toHz : fromHz);
      const end = Math.min(reachHz, side < 0 ? -fromHz : toHz);
      let near = 0;
      let length = firstSegmentHz;
      while (near < end) {
        const a = Math.max(near, begin);
        const b = Math.min(near + length, end);
        if (b > a) this.layGauss((side * (a + b)) / 2, (b - a) / 2);
        near += length;
        length = near < audioToHz ? Math.min(longestSegmentHz, near) : Math.min(near / 2, 1.5 * length);
      }
    }
  }
  private layGauss(middle: number, half: number): void {
    for (let g = 0; g < 3; g++) {
      this.offset[this.count] = middle - half * gaussAt[g];
      this.weight[this.count++] = gaussWeight[g] * half;
      this.offset[this.count] = middle + half * gaussAt[g];
      this.weight[this.count++] = gaussWeight[g] * half;
    }
  }
  private weighed(r: Response, centreHz: number, first: number, end: number): number {
    const { hz, power } = looks;
    let sum = 0;
    for (let from = first; from < end; from += mostLooks) {
      const n = Math.min(mostLooks, end - from);
      for (let i = 0; i < n; i++) hz[i] = centreHz + this.offset[from + i];
      powersAt(r, hz, power, n);
      for (let i = 0; i < n; i++) sum += this.weight[from + i] * power[i];
    }
    return sum;
  }
}
/** What each step counts for in a sum: nothing in it lasts from one to the next. */
const weights = new Float64Array(mostLooks);

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
