import { type Halved, halved } from "../../numerics/halving";
import { spectrumOf, strongestTone } from "../spectrum";
import { noiseBeside } from "./peaks";

/** A slow, regular swell of the whole sound: two carriers near zero beat. */
export interface Swell {
  /** beats a second */
  readonly hz: number;
  readonly uHz: number;
  /** so many were counted */
  readonly beatsCount: number;
  /** from the trough to the top of the swell, dB */
  readonly depthDb: number;
}
const leastRateHz = 80;
const mostSamples = 2 ** 20;
/** Slower than so many beats in a recording can't be told from a drift of level; faster is a note of its own, followed from 20 Hz on: no beat lies between the two. */
const leastBeats = 3;
const fastestHz = 22;
/** Levels that a line can be told in. */
const leastCount = 128;
/** Power above the noise beside the line, and share of the mean level, that a swell has. */
const standsAt = 40;
const leastShare = 0.04;

/**
 * Level of the sound, many times a second, and the regular swell in it.
 *
 * @source beat of two carriers, textbook; peak of a Hann-windowed transform, its variance in white noise 9.4/(SNR N^2) rad^2, derived
 */
export class SwellWatch {
  private readonly levels: number[] = [];
  private readonly front: Halved;
  private squares = new Float64Array(0);

  constructor(rateHz: number) {
    this.front = halved(rateHz, fastestHz, leastRateHz);
  }
  push(x: Float64Array): void {
    if (this.squares.length < x.length) this.squares = new Float64Array(x.length);
    for (let i = 0; i < x.length; i++) this.squares[i] = x[i] * x[i];
    for (const v of this.front.push(this.squares.subarray(0, x.length)))
      if (this.levels.length < mostSamples) this.levels.push(Math.sqrt(Math.max(0, v)));
  }
  get swell(): Swell | undefined {
    const n = this.levels.length;
    const rate = this.front.rateHz;
    const durationS = n / rate;
    const fromHz = leastBeats / durationS;
    if (n < leastCount || fromHz > fastestHz) return undefined;
    const spectrum = spectrumOf(withoutTrend(this.levels), rate, 1);
    const tone = strongestTone(spectrum, fromHz, fastestHz);
    // of the swell's share of the level: its sine's peak over the mean
    const share = 10 ** (tone.peakDbfs / 20);
    const power = spectrum.magnitude.map((m) => m * m);
    const binsOfALine = Math.ceil((2 * spectrum.length) / n);
    const top = ((share * spectrum.windowSum) / 2) ** 2;
    const bin = Math.round(tone.hz / spectrum.binHz);
    // what rises on beyond the slowest beat is the flank of a drift or a step of level
    if (power[bin - 1] > power[bin]) return undefined;
    const snr = top / Math.max(1e-30, noiseBeside(power, bin, binsOfALine));
    if (snr < standsAt || share < leastShare) return undefined;
    const most = Math.min(share, 0.99);
    return {
      hz: tone.hz,
      uHz: Math.max(0.02 / durationS, 0.49 / (durationS * Math.sqrt(snr))),
      beatsCount: tone.hz * durationS,
      depthDb: 20 * Math.log10((1 + most) / (1 - most)),
    };
  }
}
/** How far levels stand from their mean, as shares of it, a straight line taken off. */
function withoutTrend(levels: readonly number[]): Float64Array {
  const n = levels.length;
  const mean = levels.reduce((s, v) => s + v, 0) / n;
  let [up, across] = [0, 0];
  for (const [i, v] of levels.entries()) {
    up += (i - (n - 1) / 2) * (v - mean);
    across += (i - (n - 1) / 2) ** 2;
  }
  const slope = up / across;
  return Float64Array.from(levels, (v, i) => (v - mean - slope * (i - (n - 1) / 2)) / Math.max(1e-15, mean));
}
