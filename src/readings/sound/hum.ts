import { type Halved, halved } from "../../numerics/halving";
import { type Device, undone, undoneBins } from "./device";
import { type Frame, Frames, powerOfTwo } from "./frames";
import { mainsIn, middleOf, tellsAt } from "./hum-mains";
import type { Listener } from "./listener";
import { BandLevel } from "./noise-level";
import { highestHz as receiverHz, usedShare } from "./note";
import { noiseBeside, strongestBin } from "./peaks";

/** One multiple of the mains. */
export interface HumLine {
  readonly order: number;
  readonly hz: number;
  /** rms, dB re full scale; of one that does not stand the most that it may be, at 95 % */
  readonly rmsDbfs: number;
  /** standard uncertainty, dB; 0 of one that does not stand */
  readonly uDb: number;
  readonly stands: boolean;
}
export interface HumTold {
  readonly nominalHz: number;
  /** frequency of the mains; none where no line stands */
  readonly mains?: { readonly hz: number; readonly uHz: number } | undefined;
  readonly lines: readonly HumLine[];
  /** all lines that stand together, rms, dB re full scale; none where none does */
  readonly allRmsDbfs?: number | undefined;
  /** the whole sound up to the highest line, rms, dB re full scale */
  readonly soundRmsDbfs: number;
  /** the whole sound as it was ahead of the sound device, rms, and what that is known to; none where the device's response is not undone */
  readonly whole?: { readonly rmsDbfs: number; readonly uDb: number } | undefined;
  readonly framesCount: number;
}
/** Lines up to here, and the bins to each side that one is summed over. */
const highestHz = 800;
const leastRateHz = 2000;
const mostOrder = 12;
const sumBins = 3;
/** A receiver's sound begins above this. */
const wholeFromHz = 20;
/** Power of a line's sum over the scatter of what noise adds to it. */
const standsAt = 4;
/** No grid is further off than this. Source: common practice, no source. */
const gridShare = 0.01;
const leastOfNoise = 0.1;
const longestFrameS = 4;

/** Lines of one mains, frame by frame. */
class Comb {
  readonly hz: number[] = [];
  private readonly sums: Float64Array;
  private readonly squares: Float64Array;
  private readonly noise: Float64Array;
  /** frames in which something stronger stood beside a line's place */
  private readonly beside: Float64Array;
  private count = 0;

  constructor(
    readonly nominalHz: number,
    private readonly frames: Frames,
    readonly orders: number,
  ) {
    this.sums = new Float64Array(orders + 1);
    this.squares = new Float64Array(orders + 1);
    this.noise = new Float64Array(orders + 1);
    this.beside = new Float64Array(orders + 1);
  }
  take(frame: Frame): void {
    const { binHz, power } = frame;
    const found = mainsIn(frame, this.nominalHz, this.orders);
    if (found !== undefined) this.hz.push(found);
    const hz = found ?? this.hz.at(-1) ?? this.nominalHz;
    const scale = 1 / (power.length * this.frames.windowSquares);
    for (let order = 1; order <= this.orders; order++) {
      const bin = Math.round((order * hz) / binHz);
      let sum = 0;
      for (let k = bin - sumBins; k <= bin + sumBins; k++) sum += power[k] ?? 0;
      const noise = noiseBeside(power, bin) * (2 * sumBins + 1) * scale;
      const own = sum * scale - noise;
      this.sums[order] += own;
      this.squares[order] += own * own;
      this.noise[order] += noise;
      if (Math.abs(strongestBin(power, bin - sumBins, bin + sumBins) - bin) > 1) this.beside[order]++;
    }
    this.count++;
  }
  /** Whether its lines told a frequency often enough to believe it. */
  get told(): boolean {
    return this.hz.length >= 0.3 * Math.max(1, this.count);
  }
  get lines(): HumLine[] {
    const n = Math.max(1, this.count);
    // frames overlap by half: two of three count
    const free = Math.max(1, (2 * n) / 3);
    return Array.from({ length: this.orders }, (_, i) => {
      const order = i + 1;
      const [mean, noise] = [this.sums[order] / n, this.noise[order] / n];
      const spread = Math.max(0, this.squares[order] / n - mean * mean);
      // noise in a sum of bins scatters by itself, and with the line
      const alone = noise / Math.sqrt(2 * sumBins + 1);
      const byNoise = Math.sqrt(alone * alone + (2 * alone * alone * Math.max(0, mean)) / Math.max(1e-30, noise));
      const u = Math.max(byNoise, n > 3 ? Math.sqrt(spread) : 0) / Math.sqrt(free);
      const stands = this.told && mean > standsAt * (alone / Math.sqrt(free)) && mean > leastOfNoise * noise && this.beside[order] < n / 2;
      const most = 10 * Math.log10(Math.max(1e-20, stands ? mean : Math.max(mean, 0) + 1.96 * u));
      return { order, hz: order * this.nominalHz, rmsDbfs: most, uDb: stands ? (10 / Math.LN10) * (u / mean) : 0, stands };
    });
  }
}

/**
 * Lines of the mains in a sound: its frequency is found, each line summed over a few bins about its multiple, what noise adds taken off.
 *
 * @source Parseval's theorem; frequency by the multiples, as IEC 61000-4-7 groups them (from memory); lines checked against scipy in hum.crosscheck.test.ts
 */
export class Hum implements Listener {
  private readonly front: Halved;
  private readonly frames: Frames;
  private readonly combs: readonly Comb[];
  private readonly mean: Float64Array;
  private readonly whole: BandLevel | undefined;
  private squares = 0;
  private samples = 0;
  private count = 0;

  /**
   * @param sampleRateHz samples a second
   * @param ask how long the sound is, where that is known; the mains, where it is neither 50 nor 60 Hz; the sound device's response, undone where it is known
   */
  constructor(
    sampleRateHz: number,
    private readonly ask: {
      readonly secondsCount?: number | undefined;
      readonly nominalHz?: number | undefined;
      readonly device?: Device | undefined;
    } = {},
  ) {
    const passHz = Math.min(highestHz, usedShare * sampleRateHz);
    const band = { fromHz: wholeFromHz, toHz: Math.min(receiverHz, usedShare * sampleRateHz) };
    this.whole = ask.device && new BandLevel(sampleRateHz, band, ask.device);
    this.front = halved(sampleRateHz, passHz, leastRateHz);
    const { rateHz } = this.front;
    // at least two frames, overlapping by half
    const longest = Math.min(longestFrameS, (ask.secondsCount ?? Number.POSITIVE_INFINITY) / 1.6) * rateHz;
    const length = Math.max(256, powerOfTwo(longest) / (powerOfTwo(longest) > longest ? 2 : 1));
    this.frames = new Frames(rateHz, length, length / 2);
    this.mean = new Float64Array(length / 2);
    const nominal = ask.nominalHz === undefined ? [50, 60] : [ask.nominalHz];
    this.combs = nominal.map((hz) => new Comb(hz, this.frames, Math.min(mostOrder, Math.floor((passHz * 0.97) / hz))));
  }
  push(x: Float64Array): void {
    this.whole?.push(x);
    const y = this.front.push(x);
    let squares = 0;
    for (let i = 0; i < y.length; i++) squares += y[i] * y[i];
    this.squares += squares;
    this.samples += y.length;
    this.frames.push(y, (frame) => {
      for (const comb of this.combs) comb.take(frame);
      for (let k = 0; k < this.mean.length; k++) this.mean[k] += frame.power[k];
      this.count++;
    });
  }
  get told(): HumTold {
    const each = this.combs.map((comb) => ({ comb, lines: comb.lines.map((l) => this.putBack(l)) }));
    const standing = (lines: readonly HumLine[]): number => lines.reduce((s, l) => s + (l.stands ? 10 ** (l.rmsDbfs / 10) : 0), 0);
    const { comb, lines } = each.reduce((a, b) => (standing(b.lines) > standing(a.lines) ? b : a));
    const all = standing(lines);
    const known = all > 0 && comb.hz.length > 0;
    const mains = known ? middleOf(comb.hz, this.frames.binHz) : undefined;
    return {
      nominalHz: comb.nominalHz,
      mains,
      lines: mains ? lines.map((l) => ({ ...l, hz: l.order * mains.hz })) : lines,
      allRmsDbfs: all > 0 ? 10 * Math.log10(all) : undefined,
      soundRmsDbfs: 10 * Math.log10(Math.max(1e-20, (this.wholeBack() * this.squares) / Math.max(1, this.samples))),
      ...(this.whole && this.count > 0 ? { whole: { rmsDbfs: this.whole.told.rmsDbfs, uDb: this.whole.told.uDb } } : {}),
      framesCount: this.count,
    };
  }
  /** A line as it is ahead of the sound device. */
  private putBack(l: HumLine): HumLine {
    if (!this.ask.device) return l;
    const { times, uDb } = undone(this.ask.device, l.hz);
    const moreDb = 10 * Math.log10(times);
    return l.stands
      ? { ...l, rmsDbfs: l.rmsDbfs + moreDb, uDb: Math.hypot(l.uDb, uDb) }
      : { ...l, rmsDbfs: l.rmsDbfs + moreDb + 1.96 * uDb };
  }
  /** By how much the device lowers the power of the whole sound. */
  private wholeBack(): number {
    const { binHz } = this.frames;
    const { times } = undoneBins(this.ask.device, binHz, this.mean.length);
    const sum = (of: (k: number) => number): number => this.mean.reduce((s, p, k) => s + (k * binHz > highestHz ? 0 : p * of(k)), 0);
    const asHeard = sum(() => 1);
    return this.count > 0 ? sum((k) => times[k]) / Math.max(1e-30, asHeard) : 1;
  }
  /** Frequency of which three or more multiples stand well above the noise, where no mains that a grid has is there. */
  get strangeHz(): number | undefined {
    const { mains, nominalHz } = this.told;
    if (this.count === 0 || (mains && Math.abs(mains.hz / nominalHz - 1) < gridShare)) return undefined;
    const { binHz } = this.frames;
    const stands = (hz: number): boolean => {
      const bin = Math.round(hz / binHz);
      const top = strongestBin(this.mean, bin - 1, bin + 1);
      return this.mean[top] > tellsAt * noiseBeside(this.mean, top) && this.mean[top] >= Math.max(this.mean[top - 2], this.mean[top + 2]);
    };
    const fits: number[] = [];
    for (let hz = 40; hz < 75; hz += binHz / 8)
      if ([2, 4, 6].every((o) => stands(o * hz)) || [1, 2, 3].every((o) => stands(o * hz))) {
        if (hz - (fits.at(-1) ?? hz) > binHz) break;
        fits.push(hz);
      }
    return fits.length > 0 ? fits.reduce((s, v) => s + v, 0) / fits.length : undefined;
  }
}
