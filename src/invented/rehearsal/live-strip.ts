import FFT from "fft.js";
import { firstTaps } from "../../numerics/minimum-phase";
import { rehearsalRateHz } from "./scene";
import { Detecting, type Detector, restingLevel } from "./through";

/** Samples that are worked through at once, and taps that a strip has: it rings for 43 ms at most. */
export const blockSamples = 1024;
/** A change from one side to the other takes so long, s. */
const switchS = 0.03;
/** One side of what is played: how its strip rings, and the gain that makes it as loud as the other. */
export interface LiveSide {
  readonly taps: ArrayLike<number>;
  readonly gain: number;
}
/**
 * How a strip rings, as a side wants it.
 *
 * @source see `firstTaps`
 */
export const firstTapsOf = (passes: Float64Array): Float64Array => firstTaps(passes, blockSamples);
interface Side {
  bins: Float64Array;
  gain: number;
  /** what takes its place over the next block */
  next: { readonly bins: Float64Array; readonly gain: number } | undefined;
  readonly detecting: Detecting;
}

/**
 * A band through two strips at once, for as long as it is listened to: the strips may be changed and the side switched while it plays, both without a click.
 *
 * @source overlap-save by blocks, textbook; transform by the library fft.js
 */
export class LiveStrip {
  private readonly fft = new FFT(2 * blockSamples);
  private readonly segment = new Float64Array(4 * blockSamples);
  private readonly spectrum = new Float64Array(4 * blockSamples);
  private readonly product = new Float64Array(4 * blockSamples);
  private readonly passed = new Float64Array(4 * blockSamples);
  private readonly other = new Float64Array(4 * blockSamples);
  private readonly out = new Float32Array(blockSamples);
  private readonly sides: readonly Side[];
  private at = 0;
  private given = blockSamples;
  private share = 0;
  private wanted = 0;

  /**
   * @param z what arrives, complex, played over and over
   * @param d detector with what follows it
   * @param sides as it is, as it would be
   */
  constructor(
    private readonly z: Float32Array,
    d: Detector,
    sides: readonly [LiveSide, LiveSide],
  ) {
    const level = restingLevel(z);
    this.sides = sides.map((s) => ({ bins: this.binsOf(s.taps), gain: s.gain, next: undefined, detecting: new Detecting(d, level) }));
  }
  private binsOf(taps: ArrayLike<number>): Float64Array {
    const padded = new Float64Array(4 * blockSamples);
    for (let i = 0; i < Math.min(taps.length, 2 * blockSamples); i++) padded[i] = taps[i];
    const out = new Float64Array(4 * blockSamples);
    this.fft.transform(out, padded);
    return out;
  }
  /** Other strips, faded in over the next block. */
  take(sides: readonly [LiveSide, LiveSide]): void {
    for (const [i, s] of sides.entries()) this.sides[i].next = { bins: this.binsOf(s.taps), gain: s.gain };
  }
  /** 0 as it is, 1 as it would be. */
  choose(side: 0 | 1): void {
    this.wanted = side;
  }
  /** The next samples, however many. */
  render(into: Float32Array): void {
    for (let done = 0; done < into.length; ) {
      if (this.given === blockSamples) this.block();
      const take = Math.min(into.length - done, blockSamples - this.given);
      into.set(this.out.subarray(this.given, this.given + take), done);
      this.given += take;
      done += take;
    }
  }
  private through(bins: Float64Array, into: Float64Array): void {
    const { spectrum: x, product: p } = this;
    for (let i = 0; i < p.length; i += 2) {
      p[i] = x[i] * bins[i] - x[i + 1] * bins[i + 1];
      p[i + 1] = x[i] * bins[i + 1] + x[i + 1] * bins[i];
    }
    this.fft.inverseTransform(into, p);
  }
  private block(): void {
    const { segment, z } = this;
    segment.copyWithin(0, 2 * blockSamples);
    for (let i = 0; i < 2 * blockSamples; i++) segment[2 * blockSamples + i] = z[(this.at + i) % z.length];
    this.at = (this.at + 2 * blockSamples) % z.length;
    this.fft.transform(this.spectrum, segment);
    const step = 1 / (switchS * rehearsalRateHz);
    const shares = Float32Array.from({ length: blockSamples }, () => {
      this.share += Math.max(-step, Math.min(step, this.wanted - this.share));
      return this.share;
    });
    this.out.fill(0);
    for (const [which, side] of this.sides.entries()) this.side(side, (i) => (which === 0 ? 1 - shares[i] : shares[i]));
    this.given = 0;
  }
  private side(side: Side, shareAt: (i: number) => number): void {
    const { next } = side;
    this.through(side.bins, this.passed);
    if (next) this.through(next.bins, this.other);
    for (let i = 0; i < blockSamples; i++) {
      const k = 2 * (blockSamples + i);
      const part = next ? (i + 1) / blockSamples : 0;
      const re = next ? this.passed[k] + part * (this.other[k] - this.passed[k]) : this.passed[k];
      const im = next ? this.passed[k + 1] + part * (this.other[k + 1] - this.passed[k + 1]) : this.passed[k + 1];
      const gain = next ? side.gain + part * (next.gain - side.gain) : side.gain;
      this.out[i] += shareAt(i) * gain * side.detecting.next(re, im);
    }
    if (next) [side.bins, side.gain, side.next] = [next.bins, next.gain, undefined];
  }
}
