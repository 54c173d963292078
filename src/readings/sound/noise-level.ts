import { type Halved, halved } from "../../numerics/halving";
import { type Device, undoneBins } from "./device";
import type { Range } from "./follow";
import { type Frame, Frames, powerOfTwo } from "./frames";
import type { Listener } from "./listener";
import { highestHz, usedShare } from "./note";
import { noiseBeside, peakAt, strongestBin } from "./peaks";

/** What a sound comes to in a band, unweighted. */
export interface BandTold {
  readonly band: Range;
  readonly secondsCount: number;
  /** rms, dB re full scale, and its standard uncertainty: by how it varied and by the sound device */
  readonly rmsDbfs: number;
  readonly uDb: number;
  /** of that by the sound device's response, which two levels by one device have in common; none where that was not undone */
  readonly deviceUDb?: number | undefined;
  /** a tone that stood all the time */
  readonly tone?:
    | {
        readonly hz: number;
        readonly rmsDbfs: number;
        /** all of the sound over all of it but the tone, dB */
        readonly sinadDb: number;
        readonly uDb: number;
        /** a second one that stood all the time, no more than 10 dB under it: it counts as noise and distortion */
        readonly secondHz?: number | undefined;
      }
    | undefined;
}
const frameS = 0.25;
const leastRateHz = 10_000;
/** Bins to each side that a steady tone takes. */
const lineBins = 3;
/** A tone stands where it is so far above the noise beside it, in so many of the frames, at one place. */
const standsAt = 25;
const mostShare = 0.9;
/** A second tone is told that has at least so much of the first one's power. House rule. */
const secondShare = 0.1;
const leastToneHz = 200;
const decibels = (power: number): number => 10 * Math.log10(Math.max(1e-20, power));
const inDb = 10 / Math.LN10;

/** A mean and what it is known to, of frames that overlap by half: two of three count. */
class Mean {
  private sum = 0;
  private squares = 0;
  private count = 0;
  take(v: number): void {
    this.sum += v;
    this.squares += v * v;
    this.count++;
  }
  get mean(): number {
    return this.sum / Math.max(1, this.count);
  }
  /** relative standard uncertainty */
  get u(): number {
    const n = Math.max(1, this.count);
    const spread = Math.max(0, this.squares / n - this.mean ** 2);
    return Math.sqrt(spread / Math.max(1, (2 * n) / 3)) / Math.max(1e-30, this.mean);
  }
}

/** How much of a power's uncertainty is the device's, weighed by the power it was put back to. */
class ByDevice {
  private power = 0;
  private weighed = 0;
  take(power: number, weighed: number): void {
    this.power += power;
    this.weighed += weighed;
  }
  get uDb(): number {
    return this.weighed / Math.max(1e-30, this.power);
  }
}

/**
 * Level of a sound in a band, and of what is left without its tone.
 *
 * @source Parseval's theorem; SINAD = (S + N + D)/(N + D), the noise under the tone's own bins put back from beside it
 */
export class BandLevel implements Listener {
  private readonly front: Halved;
  private readonly frames: Frames;
  private readonly band: Range;
  private readonly all = new Mean();
  private readonly rest = new Mean();
  private readonly tone = new Mean();
  private readonly allBy = new ByDevice();
  private readonly toneBy = new ByDevice();
  private readonly restBy = new ByDevice();
  private readonly back: ReturnType<typeof undoneBins>;
  private readonly hz: number[] = [];
  private readonly seconds: number[] = [];
  private samples = 0;
  private count = 0;

  /**
   * @param sampleRateHz samples a second
   * @param band what counts, Hz
   * @param device the sound device's response, undone where it is known
   */
  constructor(
    sampleRateHz: number,
    band: Range,
    private readonly device?: Device,
  ) {
    this.front = halved(sampleRateHz, Math.min(highestHz, usedShare * sampleRateHz), leastRateHz);
    const { rateHz } = this.front;
    this.band = { fromHz: band.fromHz, toHz: Math.min(band.toHz, usedShare * rateHz) };
    const length = powerOfTwo(frameS * rateHz);
    this.frames = new Frames(rateHz, length, length / 2);
    this.back = undoneBins(device, rateHz / length, length / 2);
  }
  push(x: Float64Array): void {
    const y = this.front.push(x);
    this.samples += y.length;
    this.frames.push(y, (frame) => this.take(frame));
  }
  private take(frame: Frame): void {
    const { power, binHz } = frame;
    const { times, uDb } = this.back;
    for (let k = 0; k < power.length; k++) power[k] *= times[k];
    const scale = 1 / (power.length * this.frames.windowSquares);
    const [from, to] = [Math.max(1, Math.round(this.band.fromHz / binHz)), Math.round(this.band.toHz / binHz)];
    let all = 0;
    let weighed = 0;
    for (let k = from; k <= to; k++) {
      all += power[k];
      weighed += power[k] * uDb[k];
    }
    this.all.take(all * scale);
    this.allBy.take(all, weighed);
    this.count++;
    const lowest = Math.max(from, Math.round(leastToneHz / binHz));
    const peak = peakAt(frame, strongestBin(power, lowest, to));
    if (!(peak.snr > standsAt)) return;
    let own = 0;
    for (let k = peak.bin - lineBins; k <= peak.bin + lineBins; k++) own += power[k] ?? 0;
    const under = noiseBeside(power, peak.bin, lineBins) * (2 * lineBins + 1);
    this.hz.push(peak.hz);
    this.second(frame, peak.bin, [lowest, to]);
    const byTone = (own - under) * uDb[peak.bin];
    this.toneBy.take(own - under, byTone);
    this.restBy.take(all - own + under, weighed - byTone);
    this.tone.take((own - under) * scale);
    this.rest.take((all - own + under) * scale);
  }
  /** The strongest beside the tone, where it is nearly as strong. */
  private second(frame: Frame, bin: number, [lowest, highest]: readonly [number, number]): void {
    const apart = 2 * lineBins;
    const sides = [strongestBin(frame.power, lowest, bin - apart), strongestBin(frame.power, bin + apart, highest)];
    for (const k of sides.filter((s) => Math.abs(s - bin) >= apart && s >= lowest && s <= highest)) {
      const peak = peakAt(frame, k);
      if (peak.snr > standsAt && frame.power[k] > secondShare * frame.power[bin]) this.seconds.push(peak.hz);
    }
  }
  /** Frequency of a tone that was there in nearly all frames, at one place. */
  private standing(hz: readonly number[]): number | undefined {
    const mean = hz.reduce((s, v) => s + v, 0) / Math.max(1, hz.length);
    const atOnePlace = hz.every((v) => Math.abs(v - mean) < lineBins * this.frames.binHz);
    return this.count > 0 && hz.length >= mostShare * this.count && atOnePlace ? mean : undefined;
  }
  get told(): BandTold {
    const mean = this.standing(this.hz);
    const [all, rest] = [this.all.mean, this.rest.mean];
    const deviceUDb = this.allBy.uDb;
    const sinad = (this.tone.mean + rest) / Math.max(1e-20, rest);
    return {
      band: this.band,
      secondsCount: this.samples / this.front.rateHz,
      rmsDbfs: decibels(all),
      uDb: Math.hypot(inDb * this.all.u, deviceUDb),
      ...(this.device ? { deviceUDb } : {}),
      tone:
        mean === undefined
          ? undefined
          : {
              hz: mean,
              rmsDbfs: decibels(this.tone.mean),
              sinadDb: decibels(sinad),
              // the device is off by one thing at the tone and over the rest: only the difference counts, the less the more of the rest there is
              uDb: Math.hypot(inDb * this.rest.u, inDb * this.tone.u, (this.toneBy.uDb - this.restBy.uDb) * (1 - 1 / sinad)),
              secondHz: this.standing(this.seconds),
            },
    };
  }
}

/** Hears a stretch of a sound alone. */
export class During implements Listener {
  private at = 0;
  private readonly from: number;
  private readonly to: number;
  constructor(
    private readonly of: Listener,
    rateHz: number,
    span: { readonly fromS: number; readonly toS: number },
  ) {
    this.from = Math.round(span.fromS * rateHz);
    this.to = Math.round(span.toS * rateHz);
  }
  push(x: Float64Array): void {
    const part = x.subarray(Math.max(0, this.from - this.at), Math.max(0, this.to - this.at));
    this.at += x.length;
    if (part.length > 0) this.of.push(part);
  }
}

/** A difference of two levels, dB. */
export interface Difference {
  readonly db: number;
  readonly uDb: number;
}
/**
 * One level over another by the same sound device, dB: what that is off by is in both.
 *
 * @source definition
 */
export function over(a: BandTold, b: BandTold): Difference {
  const [ofA, ofB] = [a.deviceUDb ?? 0, b.deviceUDb ?? 0];
  const own = (t: BandTold, device: number): number => Math.sqrt(Math.max(0, t.uDb ** 2 - device ** 2));
  return { db: a.rmsDbfs - b.rmsDbfs, uDb: Math.hypot(own(a, ofA), own(b, ofB), ofA - ofB) };
}
/**
 * What a rise of noise says: external noise against the set's own, and what the set's own costs.
 *
 * @param rise of the noise from dummy load to antenna, dB
 * @returns external noise over the set's own, dB, and the signal-to-noise ratio lost to the set's own noise, dB; none where it did not rise
 * @source powers add, derived: rise R = 1 + E/S, loss = (E + S)/E = R/(R - 1)
 */
export function riseSays(riseDb: number): { readonly externalDb: number; readonly lossDb: number } | undefined {
  const ratio = 10 ** (riseDb / 10);
  return ratio > 1 ? { externalDb: decibels(ratio - 1), lossDb: decibels(ratio / (ratio - 1)) } : undefined;
}
