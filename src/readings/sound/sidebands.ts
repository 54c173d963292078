import { type Halved, halved } from "../../numerics/halving";
import { type Frame, Frames, powerOfTwo } from "./frames";
import type { Listener } from "./listener";
import { highestHz, usedShare } from "./note";
import { noiseBeside, peakAt, strongestBin } from "./peaks";

/** Hum on a tone: sidebands so far to both sides of it. */
export interface SidebandPair {
  /** distance from the tone, Hz: the mains or twice it */
  readonly apartHz: number;
  /** depth of modulation that both together are, as a share; the most that it may be where they don't stand */
  readonly depth: number;
  readonly stands: boolean;
}
export interface SidebandsTold {
  readonly toneHz: number;
  readonly pairs: readonly SidebandPair[];
}
const frameS = 1;
const leastRateHz = 10_000;
const leastToneHz = 350;
const sumBins = 3;
/** A tone that is to show sidebands is so far above the noise, in so many of the frames. */
const toneAt = 1e4;
const mostShare = 0.8;
const standsAt = 5;

/**
 * Sidebands of the mains on a steady tone: a carrier's beat with the BFO.
 *
 * @source amplitude modulation by a sine: each sideband has m^2/4 of the carrier's power, textbook; powers do not tell it from frequency modulation
 */
export class Sidebands implements Listener {
  private readonly front: Halved;
  private readonly frames: Frames;
  private readonly tone: number[] = [];
  private readonly pairs: { readonly own: number[]; readonly noise: number[] }[];
  private count = 0;

  /**
   * @param sampleRateHz samples a second
   * @param mainsHz frequency of the mains
   */
  constructor(
    sampleRateHz: number,
    private readonly mainsHz: number,
  ) {
    this.front = halved(sampleRateHz, Math.min(highestHz, usedShare * sampleRateHz), leastRateHz);
    const length = powerOfTwo(frameS * this.front.rateHz);
    this.frames = new Frames(this.front.rateHz, length, length / 2);
    this.pairs = [1, 2].map(() => ({ own: [], noise: [] }));
  }
  push(x: Float64Array): void {
    this.frames.push(this.front.push(x), (frame) => this.take(frame));
  }
  private take(frame: Frame): void {
    const { power, binHz } = frame;
    this.count++;
    const bin = (hz: number): number => Math.round(hz / binHz);
    const top = peakAt(frame, strongestBin(power, bin(leastToneHz), bin(usedShare * this.front.rateHz)));
    if (!(top.snr > toneAt)) return;
    const around = (hz: number): number => power.subarray(bin(hz) - sumBins, bin(hz) + sumBins + 1).reduce((s, v) => s + v, 0);
    const whole = around(top.hz);
    this.tone.push(top.hz);
    for (const [i, pair] of this.pairs.entries()) {
      const at = [-1, 1].map((side) => top.hz + side * (i + 1) * this.mainsHz);
      const noise = at.reduce((s, hz) => s + noiseBeside(power, bin(hz)) * (2 * sumBins + 1), 0);
      pair.own.push((at.reduce((s, hz) => s + around(hz), 0) - noise) / whole);
      pair.noise.push(noise / whole);
    }
  }
  /** None where no steady tone stands far above the noise. */
  get told(): SidebandsTold | undefined {
    const n = this.tone.length;
    if (n === 0 || n < mostShare * this.count) return undefined;
    const mean = (v: readonly number[]): number => v.reduce((s, x) => s + x, 0) / n;
    return {
      toneHz: mean(this.tone),
      pairs: this.pairs.map(({ own, noise }, i) => {
        // noise of two sums of bins, of two frames in three
        const u = mean(noise) / Math.sqrt(2 * (2 * sumBins + 1) * Math.max(1, (2 * n) / 3));
        const stands = mean(own) > standsAt * u;
        return { apartHz: (i + 1) * this.mainsHz, depth: Math.sqrt(2 * (stands ? mean(own) : Math.max(0, mean(own)) + 2 * u)), stands };
      }),
    };
  }
}
