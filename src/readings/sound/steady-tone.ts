import { type Frame, Frames, powerOfTwo } from "./frames";
import { noiseBeside, peakAt, strongestBin } from "./peaks";

/** What became of the tone that is followed. */
export type SteadyEvent =
  | { readonly kind: "found" | "lost" | "again" | "second"; readonly atS: number; readonly hz: number }
  | { readonly kind: "another"; readonly atS: number; readonly hz: number; readonly from: number };

const frameS = 0.25;
/** A tone is steady that stood in every frame of so long a time: speech pauses, noise falls away. Source: common practice, no source. */
const steadyS = 1.5;
/** Power above the noise beside it. Noise alone, at its least of a second, comes to this less than once in a day (derived: three bins, four frames of their own). */
const standsAt = 8;
/** Share of the whole sound's power that it has at least: a line of the mains far under the rest is not what is being tuned. Source: common practice, no source. */
const leastShare = 0.01;
/** A second tone is told that has at least so much of the first one's power, 10 dB under it. House rule. */
const secondShare = 0.1;
const gateBins = 4;
const lostAfterS = 1;

/**
 * The strongest tone that stands without a break: a modulated generator, a carrier's beat with the BFO; not speech, music's notes or crackle.
 *
 * @source least of a bin's power over a time, as in minimum statistics of speech enhancement, textbook
 */
export class SteadyTone {
  readonly events: SteadyEvent[] = [];
  private readonly frames: Frames;
  private readonly past: Float64Array[] = [];
  private readonly least: Float64Array;
  private readonly mean: Float64Array;
  private readonly depth: number;
  private at: number | undefined;
  private missed = 0;

  /**
   * @param rateHz samples a second
   * @param range where it is looked for, Hz
   */
  constructor(
    private readonly rateHz: number,
    private readonly range: { readonly fromHz: number; readonly toHz: number },
  ) {
    const length = powerOfTwo(frameS * rateHz);
    this.frames = new Frames(rateHz, length, length / 4);
    this.depth = Math.ceil((steadyS * rateHz) / this.frames.hop);
    this.least = new Float64Array(length / 2);
    this.mean = new Float64Array(length / 2);
  }
  /** Its frequency, Hz; none while there is none. */
  get hz(): number | undefined {
    return this.gone ? undefined : this.at;
  }
  private get gone(): boolean {
    return this.missed * this.frames.hop >= lostAfterS * this.rateHz;
  }
  push(x: Float64Array): void {
    this.frames.push(x, (frame) => this.take(frame));
  }
  private take(frame: Frame): void {
    const kept = this.past.length === this.depth ? this.past.shift() : undefined;
    const own = kept ?? new Float64Array(frame.power.length);
    own.set(frame.power);
    this.past.push(own);
    if (this.at !== undefined && this.follow(frame, this.at)) return;
    if (this.at === undefined || this.gone) this.find(frame);
  }
  private follow(frame: Frame, before: number): boolean {
    const middle = Math.round(before / frame.binHz);
    const peak = peakAt(frame, strongestBin(frame.power, middle - gateBins, middle + gateBins));
    const atS = frame.centre / this.rateHz;
    if (peak.snr > standsAt) {
      if (this.gone) this.events.push({ kind: "again", atS, hz: peak.hz });
      this.at = peak.hz;
      this.missed = 0;
      return true;
    }
    const was = this.gone;
    this.missed++;
    if (this.gone && !was) this.events.push({ kind: "lost", atS, hz: before });
    return false;
  }
  private find(frame: Frame): void {
    if (this.past.length < this.depth) return;
    const { least, mean, past } = this;
    least.fill(Number.POSITIVE_INFINITY);
    mean.fill(0);
    for (const power of past)
      for (let k = 1; k < power.length - 1; k++) {
        least[k] = Math.min(least[k], Math.max(power[k - 1], power[k], power[k + 1]));
        mean[k] += power[k] / past.length;
      }
    const bin = (hz: number): number => Math.round(hz / frame.binHz);
    const top = strongestBin(least, bin(this.range.fromHz), bin(this.range.toHz));
    if (!(least[top] > standsAt * noiseBeside(mean, top, gateBins))) return;
    const { hz, power } = peakAt(frame, strongestBin(frame.power, top - gateBins, top + gateBins));
    // a tone's power over three bins is one and a half times that of its top
    if (1.5 * power < leastShare * mean.reduce((s, v) => s + v, 0)) return;
    const atS = frame.centre / this.rateHz;
    this.events.push(this.at === undefined ? { kind: "found", atS, hz } : { kind: "another", atS, hz, from: this.at });
    this.at = hz;
    this.missed = 0;
    this.tellSecond(top, frame);
  }
  /** Another one that stands as long, and nearly as strong, beside the one that is followed. */
  private tellSecond(top: number, frame: Frame): void {
    const { least, mean } = this;
    const bin = (hz: number): number => Math.round(hz / frame.binHz);
    const apart = 2 * gateBins;
    const sides = [strongestBin(least, bin(this.range.fromHz), top - apart), strongestBin(least, top + apart, bin(this.range.toHz))];
    const inReach = sides.filter((k) => Math.abs(k - top) >= apart && k > 0 && k <= bin(this.range.toHz));
    const second = inReach.reduce((a, b) => (least[b] > (least[a] ?? 0) ? b : a), inReach[0] ?? top);
    if (second === top || !(least[second] > standsAt * noiseBeside(mean, second, gateBins)) || least[second] < secondShare * least[top])
      return;
    const { hz } = peakAt(frame, strongestBin(frame.power, second - gateBins, second + gateBins));
    this.events.push({ kind: "second", atS: frame.centre / this.rateHz, hz });
  }
}
