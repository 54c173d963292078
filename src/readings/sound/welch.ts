import { type Halved, halved } from "../../numerics/halving";
import { Frames, powerOfTwo } from "./frames";
import type { Listener } from "./listener";
import { highestHz, usedShare } from "./note";

/** Mean power of a sound by frequency, and what a bin of it is known to. */
export interface Spectrum {
  readonly binHz: number;
  /** mean |X|^2 of each bin, unscaled: only ratios of two of one length mean anything */
  readonly power: Float64Array;
  /** degrees of freedom of one bin */
  readonly freedom: number;
  readonly secondsCount: number;
}
const leastRateHz = 10_000;

/**
 * Mean of modified periodograms, Hann's window, frames that overlap by half.
 *
 * @source Welch, IEEE Trans. Audio Electroacoust. AU-15 (1967) 70; degrees of freedom 36 K^2/(19 K - 1) of K such frames: Percival and Walden, Spectral
 * Analysis for Physical Applications (1993), from memory, checked in welch.test.ts
 */
export class Welch implements Listener {
  private readonly front: Halved;
  private readonly frames: Frames;
  private readonly sum: Float64Array;
  private count = 0;
  private samples = 0;

  /**
   * @param sampleRateHz samples a second
   * @param resolutionHz bins are no wider
   */
  constructor(sampleRateHz: number, resolutionHz: number) {
    this.front = halved(sampleRateHz, Math.min(highestHz, usedShare * sampleRateHz), leastRateHz);
    const { rateHz } = this.front;
    const length = powerOfTwo(rateHz / resolutionHz);
    this.frames = new Frames(rateHz, length, length / 2);
    this.sum = new Float64Array(length / 2);
  }
  push(x: Float64Array): void {
    const y = this.front.push(x);
    this.samples += y.length;
    this.frames.push(y, ({ power }) => {
      for (let k = 0; k < power.length; k++) this.sum[k] += power[k];
      this.count++;
    });
  }
  get told(): Spectrum {
    const n = Math.max(1, this.count);
    return {
      binHz: this.frames.binHz,
      power: this.sum.map((v) => v / n),
      freedom: (36 * n * n) / (19 * n - 1),
      secondsCount: this.samples / this.front.rateHz,
    };
  }
}
