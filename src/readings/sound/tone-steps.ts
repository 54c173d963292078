import { type Halved, halved } from "../../numerics/halving";
import { fastestSweepHzPerS } from "../../physics/coupled-pair";
import { bad, good, type Read } from "../../units/issue";
import { type avcStates, type Held, settlingS } from "../stepped/plan";
import { type Frame, Frames, powerOfTwo } from "./frames";
import type { Listener } from "./listener";
import { highestHz, usedShare } from "./note";
import { noiseBeside, strongestBin } from "./peaks";
import type { ResponsePoint } from "./response";

/** A generator with fixed modulation that steps or sweeps through frequencies while the set's sound is recorded. */
export interface SteppedBy {
  readonly fromHz: number;
  readonly toHz: number;
  /** steps; a sweep without steps where not said */
  readonly pointsCount?: number | undefined;
  /** from the first frequency to the end of the last, s */
  readonly takesS: number;
  /** in the recording, s */
  readonly beginsS: number;
  readonly toneHz: number;
  readonly narrowestHz: number;
  readonly holds: Held;
  readonly avc: (typeof avcStates)[number];
}
/** A stretch of the recording in which one frequency, or nearly one, came in. */
export interface Slot {
  readonly hz: number;
  readonly fromS: number;
  readonly toS: number;
}
const frameS = 0.04;
/** Sound at each step behind its settling, and a guard before the next. */
const listenS = 0.25;
const guardS = 0.05;
/** Of a sweep a figure rests on so much of it, and within that it moves by no more than this share of the narrowest width. */
const windowS = 0.1;
const mostMoved = 0.1;
const mostPoints = 401;
const hz = (f: number): string => `${Number(f.toPrecision(3))} Hz`;

/** Fastest change of frequency that a width and the listening allow, Hz/s. */
function fastest({ fromHz, toHz, pointsCount, narrowestHz }: SteppedBy): number {
  if (pointsCount === undefined) return Math.min(fastestSweepHzPerS(narrowestHz), (mostMoved * narrowestHz) / windowS);
  return (toHz - fromHz) / (pointsCount - 1) / (settlingS(narrowestHz) + listenS + guardS);
}
/**
 * Stretches of a recording by the frequency that came in, if that can give selectivity.
 *
 * @param by how the generator went
 * @returns stretches in order; or the first issue, located
 * @source as planSteps; a sweep: fastestSweepHzPerS, and a tenth of the narrowest width within one figure, common practice, no source
 */
export function slotsOf(by: SteppedBy): Read<readonly Slot[]> {
  const { fromHz, toHz, pointsCount, takesS, beginsS, narrowestHz, toneHz } = by;
  if (!(fromHz > 0)) return bad("--from", "out-of-range", hz(fromHz), "a frequency above 0");
  if (!(toHz > fromHz)) return bad("--to", "out-of-range", hz(toHz), `a frequency above ${hz(fromHz)}`);
  if (by.holds === "level" && by.avc === "on")
    return bad(
      "--avc",
      "avc-flattens",
      "on",
      "AVC off or clamped, or --hold output: AVC turns the gain down at the peak, and the curve would come out too broad",
    );
  if (!(narrowestHz > 0)) return bad("--narrowest", "out-of-range", hz(narrowestHz), "a width above 0");
  if (!(toneHz >= 100 && toneHz <= narrowestHz / 4))
    return bad(
      "--tone",
      "sidebands-outside",
      hz(toneHz),
      `from 100 Hz to a quarter of the narrowest width, ${hz(narrowestHz / 4)}: else the sidebands lie on the slopes and the curve comes out smeared`,
    );
  if (pointsCount !== undefined && !(Number.isInteger(pointsCount) && pointsCount >= 5 && pointsCount <= 2001))
    return bad("--points", "out-of-range", String(pointsCount), "5 to 2001 points");
  const steps = pointsCount ?? Math.min(mostPoints, Math.floor(takesS / windowS));
  const rate = (toHz - fromHz) / (pointsCount === undefined ? takesS : (takesS / pointsCount) * (pointsCount - 1));
  const most = fastest(by);
  if (!(rate <= most * (1 + 1e-9)))
    return bad(
      "--takes",
      "too-fast",
      `${takesS} s, ${hz(rate)} a second`,
      `at most ${hz(most)} a second, so ${Number((((toHz - fromHz) / most) * (pointsCount === undefined ? 1 : pointsCount / (pointsCount - 1))).toPrecision(3))} s or more: a width of ${hz(narrowestHz)} follows no faster`,
    );
  const each = takesS / steps;
  const skip = pointsCount === undefined ? 0 : settlingS(narrowestHz);
  const guard = pointsCount === undefined ? 0 : guardS;
  return good(
    Array.from({ length: steps }, (_, i) => ({
      // a step stands at its frequency; a sweep's stretch is at its middle
      hz: pointsCount === undefined ? fromHz + ((toHz - fromHz) * (i + 0.5)) / steps : fromHz + ((toHz - fromHz) * i) / (steps - 1),
      fromS: beginsS + i * each + skip,
      toS: beginsS + (i + 1) * each - guard,
    })),
  );
}

const sumBins = 2;
const standsAt = 4;
/** What of each stretch the tone comes to. */
interface Sums {
  own: number;
  squares: number;
  noise: number;
  count: number;
}
/** Points in which the tone stands; frequencies at which it does not, and how many the sound does not reach. */
export interface StepsTold {
  readonly points: readonly ResponsePoint[];
  readonly unheard: readonly number[];
  readonly beyondCount: number;
}
/**
 * Level of one tone in each of some stretches of a sound.
 *
 * @source Parseval's theorem over the tone's own bins, noise beside it taken off
 */
export class ToneSteps implements Listener {
  private readonly front: Halved;
  private readonly frames: Frames;
  private readonly sums: readonly Sums[];
  private at = 0;
  private endS = 0;

  /**
   * @param sampleRateHz samples a second
   * @param slots in order
   * @param toneHz of the modulation
   */
  constructor(
    sampleRateHz: number,
    private readonly slots: readonly Slot[],
    private readonly toneHz: number,
  ) {
    this.front = halved(sampleRateHz, Math.min(highestHz, usedShare * sampleRateHz), 10_000);
    const length = powerOfTwo(frameS * this.front.rateHz);
    this.frames = new Frames(this.front.rateHz, length, length / 2);
    this.sums = slots.map(() => ({ own: 0, squares: 0, noise: 0, count: 0 }));
  }
  push(x: Float64Array): void {
    this.frames.push(this.front.push(x), (frame) => this.take(frame));
  }
  private take({ centre, power, binHz }: Frame): void {
    const { rateHz } = this.front;
    const half = this.frames.length / 2 / rateHz;
    const s = centre / rateHz;
    this.endS = s + half;
    while (this.at < this.slots.length && s > this.slots[this.at].toS) this.at++;
    const slot = this.slots[this.at];
    // the window's ends weigh next to nothing: a half of it within is enough
    if (slot === undefined || s - half / 2 < slot.fromS || s + half / 2 > slot.toS) return;
    const middle = Math.round(this.toneHz / binHz);
    const bin = strongestBin(power, middle - 1, middle + 1);
    let own = 0;
    for (let k = bin - sumBins; k <= bin + sumBins; k++) own += power[k];
    const noise = noiseBeside(power, bin, sumBins + 1) * (2 * sumBins + 1);
    const sums = this.sums[this.at];
    sums.own += own - noise;
    sums.squares += (own - noise) ** 2;
    sums.noise += noise;
    sums.count++;
  }
  get told(): StepsTold {
    const points: ResponsePoint[] = [];
    const unheard: number[] = [];
    let beyondCount = 0;
    for (const [i, { own, squares, noise, count }] of this.sums.entries()) {
      const slot = this.slots[i];
      if (count === 0 || slot.toS > this.endS + frameS) {
        beyondCount++;
        continue;
      }
      const free = Math.max(1, (2 * count) / 3);
      const [mean, under] = [own / count, noise / count];
      const alone = under / Math.sqrt(2 * sumBins + 1);
      const byNoise = Math.sqrt(alone * alone + (2 * alone * alone * Math.max(0, mean)) / Math.max(1e-30, under));
      const spread = count > 3 ? Math.sqrt(Math.max(0, squares / count - mean * mean)) : 0;
      const u = Math.max(byNoise, spread) / Math.sqrt(free);
      if (!(mean > standsAt * (alone / Math.sqrt(free))) || !(mean > 0)) unheard.push(slot.hz);
      else points.push({ hz: slot.hz, levelDb: 10 * Math.log10(mean), uDb: (10 / Math.LN10) * (u / mean) });
    }
    return { points, unheard, beyondCount };
  }
}
/** AVC leaves at least so much of a change at the output. Source: common practice, no source. */
const leastLeft = 0.1;
/** So far a held output may be off, dB. */
const mostOffDb = 0.5;
/**
 * A response by what the generator had to give for one and the same output.
 *
 * @param heard level of the tone at each frequency, as it was held
 * @param gave the generator's level at each, dBm
 * @param avc what the set's AVC did
 * @returns points, and the frequencies at which the output was not held
 * @source output held: response = -level; what the output was off by, over what AVC leaves of a change
 */
export function heldOutput(
  heard: readonly ResponsePoint[],
  gave: ReadonlyMap<number, number>,
  avc: SteppedBy["avc"],
): { readonly points: readonly ResponsePoint[]; readonly notHeld: readonly number[] } {
  const levels = heard.map((p) => p.levelDb).sort((a, b) => a - b);
  const usual = levels[levels.length >> 1] ?? 0;
  const points: ResponsePoint[] = [];
  const notHeld: number[] = [];
  for (const p of heard) {
    const dbm = gave.get(p.hz);
    const off = p.levelDb - usual;
    if (dbm === undefined || Math.abs(off) > mostOffDb) notHeld.push(p.hz);
    else if (avc === "on") points.push({ hz: p.hz, levelDb: -dbm, uDb: Math.hypot(p.uDb, Math.abs(off)) / leastLeft });
    else points.push({ hz: p.hz, levelDb: off - dbm, uDb: p.uDb });
  }
  return { points, notHeld };
}
