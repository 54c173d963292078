import { type Halved, halved } from "../../numerics/halving";
import { type Range, type ToneEvent, ToneFollower, type ToneReading } from "./follow";
import { Frames, powerOfTwo } from "./frames";
import { jumped } from "./jumps";
import type { Listener } from "./listener";
import { type Swell, SwellWatch } from "./swell";

/** How a tone is looked for. */
export interface NoteAsk {
  /** time from one reading to the next, s */
  readonly everyS: number;
  readonly range: Range;
  /** a second tone, whose distance to the first is told */
  readonly against?: Range | undefined;
}
/** A stretch in which the tone was never away. */
export interface Stretch {
  readonly fromS: number;
  readonly toS: number;
  readonly meanHz: number;
  readonly uHz: number;
}
/** A tone over the whole of a sound. */
export interface ToneTold {
  readonly readings: readonly ToneReading[];
  readonly events: readonly ToneEvent[];
  readonly stretches: readonly Stretch[];
  /** when its phase jumped, s: sound was lost, or the tone was knocked; left out of the mean where they are few */
  readonly jumpsAtS: readonly number[];
  /** whether it jumps so often that no reading is surer than another */
  readonly broken: boolean;
  /** mean over all stretches, and its standard uncertainty by the noise, and by how the readings scatter where that is more */
  readonly meanHz: number;
  readonly uHz: number;
  readonly lowHz: number;
  readonly highHz: number;
  /** by a straight line through the readings, Hz per second, with its standard uncertainty by their scatter about it */
  readonly slopeHzPerS: number;
  readonly slopeU: number;
  /** whether it did nothing that noise does not do */
  readonly steady: boolean;
  readonly meanPeakDbfs: number;
}
export interface NoteTold {
  readonly everyS: number;
  /** length of the frames that a reading rests on, s: tones closer than two over this are one */
  readonly frameS: number;
  readonly tone?: ToneTold | undefined;
  readonly against?: ToneTold | undefined;
  /** distance of the second tone to the first, where both were followed at once, by second */
  readonly apart?: { readonly meanHz: number; readonly uHz: number; readonly seconds: number } | undefined;
  readonly swell?: Swell | undefined;
}
/** Audio of a communications receiver ends below this. */
export const highestHz = 5000;
const leastRateHz = 10_000;
/** Where more of the readings jumped than this share, the others can't be told from them. */
const mostJumps = 0.25;
/** Share of a sample rate up to which a tone is looked for. */
export const usedShare = 0.45;

/**
 * The strongest tone of a sound against time, and the slow swell of the whole.
 *
 * Readings scatter by 1.6 times the Cramér-Rao bound of the sound that each rests on (one frame and one step, s); the mean of a stretch comes as near to the
 * bound of the stretch as the phases at its ends are known.
 *
 * @source ToneFollower, SwellWatch; factor derived for Hann's window and checked in note.crosscheck.test.ts
 */
export class Note implements Listener {
  private readonly front: Halved;
  private readonly frames: Frames;
  private readonly swells: SwellWatch;
  private readonly first: ToneFollower;
  private readonly second: ToneFollower | undefined;

  constructor(
    sampleRateHz: number,
    private readonly ask: NoteAsk,
  ) {
    this.front = halved(sampleRateHz, Math.min(highestHz, usedShare * sampleRateHz), leastRateHz);
    const { rateHz } = this.front;
    const hop = Math.max(8, Math.round(ask.everyS * rateHz));
    this.frames = new Frames(rateHz, powerOfTwo(1.25 * hop), hop);
    this.swells = new SwellWatch(rateHz);
    const within = (r: Range): Range => ({ fromHz: r.fromHz, toHz: Math.min(r.toHz, usedShare * rateHz) });
    this.first = new ToneFollower(this.frames, rateHz, within(ask.range));
    this.second = ask.against && new ToneFollower(this.frames, rateHz, within(ask.against));
  }
  push(x: Float64Array): void {
    const y = this.front.push(x);
    this.swells.push(y);
    this.frames.push(y, (frame) => {
      this.first.take(frame);
      this.second?.take(frame);
    });
  }
  /** What a live display shows: the reading at hand, none while the tone is away. */
  get now(): ToneReading | undefined {
    return this.first.following ? this.first.readings.at(-1) : undefined;
  }
  /** The first tone's readings and events so far: the lists themselves, which grow. */
  get track(): { readonly readings: readonly ToneReading[]; readonly events: readonly ToneEvent[] } {
    return this.first;
  }
  get told(): NoteTold {
    const tone = toneTold(this.first, this.ask.everyS);
    const against = this.second && toneTold(this.second, this.ask.everyS);
    return {
      everyS: this.ask.everyS,
      frameS: this.frames.length / this.front.rateHz,
      tone,
      against,
      apart: tone && against && apartOf(tone, against),
      swell: this.swells.swell,
    };
  }
}

function toneTold({ readings, events }: ToneFollower, everyS: number): ToneTold | undefined {
  if (readings.length === 0) return undefined;
  const off = jumped(readings);
  const broken = off.size > mostJumps * readings.length;
  // the reading beside one that jumped is touched by it
  const sound = broken ? readings : readings.filter((r, i) => ![readings[i - 1], r, readings[i + 1]].some((x) => off.has(x)));
  const stretches = stretchesOf(sound, everyS);
  const seconds = stretches.reduce((s, x) => s + x.toS - x.fromS, 0);
  const meanHz = stretches.reduce((s, x) => s + x.meanHz * (x.toS - x.fromS), 0) / seconds;
  const byNoise = Math.sqrt(stretches.reduce((s, x) => s + (x.uHz * (x.toS - x.fromS)) ** 2, 0)) / seconds;
  const { slope, slopeU, scatter, expected } = lineThrough(sound);
  // what scatters more than noise does is told by its scatter; of a broken sound nobody knows which way it is off
  const more = Math.max(0, scatter - 2 * expected) / (broken ? 1 : sound.length);
  const plain = readings.reduce((s, r) => s + r.hz, 0) / readings.length;
  const spread = readings.reduce((s, r) => s + (r.hz - plain) ** 2, 0) / readings.length;
  return {
    readings,
    events,
    stretches,
    jumpsAtS: readings.filter((r) => off.has(r)).map((r) => r.atS),
    broken,
    meanHz,
    uHz: Math.sqrt(byNoise ** 2 + more),
    lowHz: readings.reduce((s, r) => Math.min(s, r.hz), Number.POSITIVE_INFINITY),
    highHz: readings.reduce((s, r) => Math.max(s, r.hz), 0),
    slopeHzPerS: slope,
    slopeU,
    steady: spread < 2 * (readings.reduce((s, r) => s + r.uHz ** 2, 0) / readings.length) || Math.sqrt(spread) < 1e-6 * meanHz,
    meanPeakDbfs: 10 * Math.log10(readings.reduce((s, r) => s + 10 ** (r.peakDbfs / 10), 0) / readings.length),
  };
}
/** Neighbours so far apart that one piece of lost sound is in both. */
const reach = 4;
/**
 * A straight line through readings: its slope, Hz per second; the long-run scatter about it, neighbours that go together counted as such, and what noise alone
 * would make of one reading, both Hz squared.
 *
 * @source W. K. Newey, K. D. West, Econometrica 55 (1987) 703: long-run variance with falling weights, from memory
 */
function lineThrough(readings: readonly ToneReading[]) {
  const n = readings.length;
  const meanS = readings.reduce((s, r) => s + r.atS, 0) / n;
  const plain = readings.reduce((s, r) => s + r.hz, 0) / n;
  const across = readings.reduce((s, r) => s + (r.atS - meanS) ** 2, 0);
  const slope = n > 2 ? readings.reduce((s, r) => s + (r.atS - meanS) * (r.hz - plain), 0) / across : 0;
  const off = readings.map((r) => r.hz - plain - slope * (r.atS - meanS));
  const together = (lag: number): number => off.slice(lag).reduce((s, v, i) => s + v * off[i], 0);
  const lags = Array.from({ length: reach }, (_, i) => i + 1);
  const long = together(0) + 2 * lags.reduce((s, k) => s + (1 - k / (reach + 1)) * together(k), 0);
  return {
    slope,
    slopeU: n > 2 ? Math.sqrt(together(0) / (n - 2) / across) : Number.POSITIVE_INFINITY,
    scatter: n > 2 ? long / (n - 2) : 0,
    expected: readings.reduce((s, r) => s + r.uHz ** 2, 0) / n,
  };
}
/** Readings that follow each other without a gap: their mean is known by the phases at both ends. */
function stretchesOf(readings: readonly ToneReading[], everyS: number): Stretch[] {
  const out: Stretch[] = [];
  let from = 0;
  for (let i = 1; i <= readings.length; i++) {
    if (i < readings.length && readings[i].atS - readings[i - 1].atS < 1.5 * everyS) continue;
    const part = readings.slice(from, i);
    const n = part.length;
    out.push({
      fromS: part[0].atS - everyS / 2,
      toS: part[n - 1].atS + everyS / 2,
      meanHz: part.reduce((s, r) => s + r.hz, 0) / n,
      // what the phases between cost cancels
      uHz: Math.hypot(part[0].uHz, part[n - 1].uHz) / Math.SQRT2 / n,
    });
    from = i;
  }
  return out;
}
function apartOf(a: ToneTold, b: ToneTold): NoteTold["apart"] {
  const off = new Set([a, b].flatMap((t) => (t.broken ? [] : t.jumpsAtS)));
  const other = new Map(b.readings.filter((r) => !off.has(r.atS)).map((r) => [r.atS, r]));
  const both = a.readings.flatMap((r) => {
    const o = other.get(r.atS);
    return o ? [{ hz: o.hz - r.hz, uHz: Math.hypot(o.uHz, r.uHz) }] : [];
  });
  const n = both.length;
  if (n === 0) return undefined;
  const meanHz = both.reduce((s, r) => s + r.hz, 0) / n;
  return {
    meanHz,
    uHz: Math.sqrt(both.reduce((s, r) => s + r.uHz ** 2, 0)) / n,
    seconds: n * (a.readings.length > 1 ? a.readings[1].atS - a.readings[0].atS : 1),
  };
}
