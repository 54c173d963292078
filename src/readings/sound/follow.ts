import type { Frame, Frames } from "./frames";
import { type Peak, peakAt, strongestBin } from "./peaks";

/** One reading of a tone: its mean frequency from one frame to the next. */
export interface ToneReading {
  /** since the beginning, s */
  readonly atS: number;
  readonly hz: number;
  /** standard uncertainty by the noise beside the tone, Hz */
  readonly uHz: number;
  /** peak of the sine, dB re full scale */
  readonly peakDbfs: number;
}
/** What happened to a tone that was followed: nothing is passed over in silence. */
export type ToneEvent =
  | { readonly kind: "found" | "lost" | "again"; readonly atS: number; readonly hz: number }
  /** it moved at once, further than it was on its way to; or another tone took its place */
  | { readonly kind: "stepped" | "another"; readonly atS: number; readonly hz: number; readonly from: number }
  /** a tone that is not followed has become the stronger one; or stands beside the one that is, nearly as strong */
  | { readonly kind: "stronger" | "second"; readonly atS: number; readonly hz: number };

/** Power above the noise of a bin: to be found among thousands of bins, and to be followed among a few. Noise alone does either about once in ten thousand frames. */
const findsAt = 25;
const followsAt = 10;
/** So many times as strong, for so many frames, before another tone is spoken of. */
const stronger = 10;
const nearly = 10;
const patience = 5;
/** Bins to each side in which the tone is looked for; with every frame that it is away one more, so many at most. */
const gateBins = 4;
const mostGateBins = 20;
/** A tone that came no nearer than so many bins to where it was on its way to has stepped. */
const stepBins = 1.5;
/** Frames without it before it is lost, and before another one may be followed instead. */
const lostAfter = 3;
const givenUpAfter = 10;

/** Where a tone may be, Hz. */
export interface Range {
  readonly fromHz: number;
  readonly toHz: number;
}

/**
 * Follows the strongest tone of a range from frame to frame. A reading's frequency is what the phase ran on by from the middle of one frame to the
 * middle of the next, so that the mean of many is as good as the phases at both ends.
 *
 * @source phase of consecutive transforms, textbook; variance of a phase in white noise 1/(2 SNR), SNR of the bin
 */
export class ToneFollower {
  readonly readings: ToneReading[] = [];
  readonly events: ToneEvent[] = [];
  private last: (Peak & { readonly centre: number }) | undefined;
  private slopeHz = 0;
  /** its power of late */
  private level = 0;
  private missed = 0;
  private rival = { bin: 0, frames: 0, told: 0 };
  private second = { bin: 0, frames: 0, told: 0 };
  private waiting: Peak | undefined;
  private readonly alike: number;

  constructor(
    private readonly frames: Frames,
    private readonly rateHz: number,
    private readonly range: Range,
  ) {
    this.alike = frames.alike;
  }
  /** Whether it is on the tone now. */
  get following(): boolean {
    return this.last !== undefined && this.missed < lostAfter;
  }
  take(frame: Frame): void {
    if (this.last) this.follow(frame, this.last);
    else this.find(frame);
  }
  private bins(hz: number): number {
    return Math.round(hz / this.frames.binHz);
  }
  private strongest(frame: Frame): Peak {
    return peakAt(frame, strongestBin(frame.power, this.bins(this.range.fromHz), this.bins(this.range.toHz)));
  }
  private at(frame: Frame): number {
    return frame.centre / this.rateHz;
  }
  /** Two frames in a row must show the same tone. */
  private find(frame: Frame): void {
    const peak = this.strongest(frame);
    const before = this.waiting;
    this.waiting = peak.snr > findsAt ? peak : undefined;
    if (!before || peak.snr <= findsAt || Math.abs(peak.bin - before.bin) > 2) return;
    this.events.push({ kind: "found", atS: this.at(frame), hz: peak.hz });
    this.start(frame, peak, peak.hz - before.hz);
  }
  private start(frame: Frame, peak: Peak, slopeHz: number): void {
    this.level = this.last && this.missed < givenUpAfter ? 0.7 * this.level + 0.3 * peak.power : peak.power;
    this.last = { ...peak, centre: frame.centre };
    this.slopeHz = slopeHz;
    this.missed = 0;
    this.waiting = undefined;
  }
  private follow(frame: Frame, last: Peak & { readonly centre: number }): void {
    const { binHz } = this.frames;
    const expected = last.hz + this.slopeHz * Math.min(2, this.missed + 1);
    const gate = Math.min(mostGateBins, gateBins + this.missed);
    const middle = this.bins(expected);
    const near = strongestBin(frame.power, middle - gate, middle + gate, (k) => 1 / (1 + ((k * binHz - expected) / (2 * binHz)) ** 2));
    const peak = peakAt(frame, near);
    const stepped = Math.abs(peak.hz - expected) > stepBins * binHz * Math.min(2, this.missed + 1);
    // a far weaker one to the side is another one: what was followed is gone
    const seen = peak.snr > (this.missed >= lostAfter ? findsAt : followsAt) && !(stepped && peak.power < this.level / stronger);
    this.watch(frame, peak, seen);
    if (seen) this.watchSecond(frame, peak);
    if (!seen) {
      this.miss(frame, last);
      return;
    }
    if (this.missed >= lostAfter) this.events.push({ kind: "again", atS: this.at(frame), hz: peak.hz });
    if (stepped) this.events.push({ kind: "stepped", atS: this.at(frame), hz: peak.hz, from: last.hz });
    if (!stepped && this.missed === 0) this.read(frame, peak, last);
    this.start(frame, peak, stepped || this.missed > 0 ? 0 : 0.5 * this.slopeHz + 0.5 * (peak.hz - last.hz));
  }
  private miss(frame: Frame, last: Peak & { readonly centre: number }): void {
    this.missed++;
    if (this.missed === lostAfter) this.events.push({ kind: "lost", atS: last.centre / this.rateHz, hz: last.hz });
    if (this.missed < givenUpAfter) return;
    const peak = this.strongest(frame);
    const before = this.waiting;
    this.waiting = peak.snr > findsAt ? peak : undefined;
    if (!before || peak.snr <= findsAt || Math.abs(peak.bin - before.bin) > 2) return;
    this.events.push({ kind: "another", atS: this.at(frame), hz: peak.hz, from: last.hz });
    this.start(frame, peak, 0);
  }
  private read(frame: Frame, peak: Peak, last: Peak & { readonly centre: number }): void {
    const turns = (peak.phase - last.phase) / (2 * Math.PI);
    const spanS = (frame.centre - last.centre) / this.rateHz;
    const about = (spanS * (peak.hz + last.hz)) / 2;
    const hz = (turns + Math.round(about - turns)) / spanS;
    const [a, b] = [0.5 / peak.snr, 0.5 / last.snr];
    this.readings.push({
      atS: (frame.centre + last.centre) / 2 / this.rateHz,
      hz,
      uHz: Math.sqrt(a + b - 2 * this.alike * Math.sqrt(a * b)) / (2 * Math.PI * spanS),
      peakDbfs: 10 * Math.log10(peak.power) + 20 * Math.log10(2 / this.frames.windowSum),
    });
  }
  /** A second tone beside it, nearly as strong for a while, is told once: harmonics are its own. */
  private watchSecond(frame: Frame, peak: Peak): void {
    const own = (k: number): boolean => {
      const order = Math.max(1, Math.round((k * frame.binHz) / peak.hz));
      return Math.abs(k - peak.bin) <= mostGateBins || Math.abs(k - (order * peak.hz) / frame.binHz) <= 2;
    };
    const bin = strongestBin(frame.power, this.bins(this.range.fromHz), this.bins(this.range.toHz), (k) => (own(k) ? 0 : 1));
    const tone = peakAt(frame, bin);
    const stands = !own(bin) && tone.snr > findsAt && tone.power > peak.power / nearly && tone.power < stronger * peak.power;
    const same = stands && Math.abs(bin - this.second.bin) <= 2;
    this.second = { bin, frames: same ? this.second.frames + 1 : stands ? 1 : 0, told: this.second.told };
    if (this.second.frames < patience || Math.abs(bin - this.second.told) <= mostGateBins) return;
    this.second.told = bin;
    this.events.push({ kind: "second", atS: this.at(frame), hz: tone.hz });
  }
  /** Another tone, much stronger for a while, is told once. */
  private watch(frame: Frame, peak: Peak, seen: boolean): void {
    const bin = strongestBin(frame.power, this.bins(this.range.fromHz), this.bins(this.range.toHz));
    const other = frame.power[bin] > stronger * peak.power && Math.abs(bin - peak.bin) > mostGateBins && seen;
    const same = other && Math.abs(bin - this.rival.bin) <= 2;
    this.rival = { bin, frames: same ? this.rival.frames + 1 : other ? 1 : 0, told: this.rival.told };
    if (this.rival.frames < patience || Math.abs(bin - this.rival.told) <= mostGateBins) return;
    this.rival.told = bin;
    this.events.push({ kind: "stronger", atS: this.at(frame), hz: peakAt(frame, bin).hz });
  }
}
