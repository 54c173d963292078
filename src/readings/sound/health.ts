import type { SoundHead } from "./sound";

/** Samples at the very top, so many in a row, are a wave that was cut off. */
const cutInRow = 3;
const topShare = 0.9995;
/** Quieter than this is silence; quieter than that is too little to be sure of. */
const silenceDbfs = -90;
const quietDbfs = -60;
const levelDb = (v: number): number => 20 * Math.log10(Math.max(1e-15, v));

/** One channel's levels as they come. */
export class Levels {
  peak = 0;
  sum = 0;
  squares = 0;
  count = 0;
  cuts = 0;
  firstCut = -1;
  private row = 0;

  push(x: Float64Array): void {
    let high = 0;
    let low = 0;
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < x.length; i++) {
      const v = x[i];
      sum += v;
      squares += v * v;
      if (v > high) high = v;
      else if (v < low) low = v;
    }
    const peak = Math.max(high, -low);
    this.peak = Math.max(this.peak, peak);
    this.sum += sum;
    this.squares += squares;
    if (peak >= topShare) this.countCuts(x);
    else this.row = 0;
    this.count += x.length;
  }
  private countCuts(x: Float64Array): void {
    for (let i = 0; i < x.length; i++) {
      if (Math.abs(x[i]) < topShare) this.row = 0;
      else if (++this.row === cutInRow) {
        this.cuts++;
        if (this.firstCut < 0) this.firstCut = this.count + i;
      }
    }
  }
}
/** How well a sound was recorded. */
export interface Health {
  readonly secondsCount: number;
  readonly peakDbfs: number;
  readonly rmsDbfs: number;
  /** places where the wave was cut off */
  readonly clippedCount: number;
  /** no signal in it at all */
  readonly silent: boolean;
  readonly warnings: readonly string[];
}

/**
 * Watches a sound as it goes by, every channel of it: silence, clipping, a signal on one side only, a level that is too low.
 *
 * @source definitions; limits by common practice, no source
 */
export class HealthWatch {
  private readonly channels: readonly Levels[];
  constructor(
    private readonly head: Pick<SoundHead, "sampleRateHz" | "channelsCount" | "step">,
    private readonly used: () => number,
  ) {
    this.channels = Array.from({ length: head.channelsCount }, () => new Levels());
  }
  push(block: readonly Float64Array[]): void {
    for (const [i, x] of block.entries()) this.channels[i].push(x);
  }
  get health(): Health {
    const own = this.channels[this.used()];
    const n = Math.max(1, own.count);
    const rms = Math.sqrt(Math.max(0, own.squares / n - (own.sum / n) ** 2));
    const silent = levelDb(own.peak) < silenceDbfs || rms < 0.75 * this.head.step;
    return {
      secondsCount: own.count / this.head.sampleRateHz,
      peakDbfs: levelDb(own.peak),
      rmsDbfs: levelDb(rms),
      clippedCount: own.cuts,
      silent,
      warnings: silent ? [] : [...this.ofLevel(own, rms), ...this.ofSides(own)],
    };
  }
  private ofLevel(own: Levels, rms: number): string[] {
    const out: string[] = [];
    if (own.cuts > 0)
      out.push(
        `clipped in ${own.cuts} ${own.cuts === 1 ? "place" : "places"}, first at ${clock(own.firstCut / this.head.sampleRateHz)}: levels and lines are not to be trusted there; turn the input down and record again`,
      );
    if (levelDb(own.peak) < quietDbfs)
      out.push(`very quiet, ${levelDb(own.peak).toFixed(0)} dB re full scale at most: turn the input up and record again`);
    const dc = Math.abs(own.sum / Math.max(1, own.count));
    if (dc > 0.02 && dc > rms / 10) out.push(`the wave is off zero by ${levelDb(dc).toFixed(0)} dB re full scale: DC from the input`);
    return out;
  }
  /** Where the signal is, of several channels: on this one alone, louder on another, or on more than this. */
  get sides(): "this one" | "another" | "several" {
    const own = this.channels[this.used()];
    const energies = this.channels.map((c) => c.squares);
    if (Math.max(...energies) > 4 * own.squares) return "another";
    return energies.every((e, i) => i === this.used() || e < own.squares / 100) ? "this one" : "several";
  }
  private ofSides(own: Levels): string[] {
    const energies = this.channels.map((c) => c.squares);
    const loudest = energies.indexOf(Math.max(...energies));
    const name = (i: number) => sideName(i, this.channels.length);
    if (this.sides === "another")
      return [`${name(this.used())} was listened to, and ${name(loudest)} was louder overall: --channel ${loudest + 1} takes that one`];
    return this.channels.length > 1 && own.squares > 0 && this.sides === "this one"
      ? [`the signal is on one side, ${name(this.used())}: that one was listened to`]
      : [];
  }
}
/** A channel by name. */
export const sideName = (i: number, count: number): string => (count === 2 ? (["left", "right"][i] ?? "") : `channel ${i + 1}`);
/**
 * `1:02:03` since the beginning; `0:07.3` where it is short.
 *
 * @source house format
 */
export function clock(s: number): string {
  const tenths = s < 600 ? Math.round(s * 10) / 10 : Math.round(s);
  const [h, m, rest] = [Math.floor(tenths / 3600), Math.floor(tenths / 60) % 60, tenths % 60];
  const seconds = s < 600 ? rest.toFixed(1).padStart(4, "0") : String(Math.floor(rest)).padStart(2, "0");
  return h > 0 ? `${h}:${String(m).padStart(2, "0")}:${seconds}` : `${m}:${seconds}`;
}
