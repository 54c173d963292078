import { type Halved, halved } from "../../numerics/halving";
import { LevelMeter, levelS } from "./level";
import type { Listener } from "./listener";
import { highestHz, usedShare } from "./note";
import { type SteadyEvent, SteadyTone } from "./steady-tone";
import { CalmFigure, type Passage, type TopNow, TopWatch } from "./top";

/** What the level is of. */
export type Measures = { readonly tone: number } | "whole";
export interface PeakAsk {
  /** a steady tone where one stands, else the whole; or the whole whatever stands */
  readonly of: "tone" | "whole";
  /** where the tone is looked for, Hz */
  readonly range?: { readonly fromHz: number; readonly toHz: number } | undefined;
}
/** What a live display shows. */
export interface PeakNow {
  readonly atS: number;
  readonly measures: Measures;
  /** the tone is gone: the level is of what is left there */
  readonly lost: boolean;
  readonly levelDbfs: number;
  readonly top?: TopNow | undefined;
  /** the level against the best so far, as it is shown */
  readonly shown?: { readonly db: number; readonly digits: 0 | 1 } | undefined;
  readonly passagesCount: number;
}
/** A stretch in which one thing was measured. */
export interface PeakStretch {
  readonly fromS: number;
  readonly measures: Measures;
  readonly passages: readonly Passage[];
  readonly last?: TopNow | undefined;
}
export interface PeakTold {
  /** what was measured last, and before it */
  readonly stretches: readonly PeakStretch[];
  readonly events: readonly SteadyEvent[];
  /** ten a second: since the beginning, s; level, dB re full scale, rms */
  readonly timeS: readonly number[];
  readonly levelDbfs: readonly number[];
}
/** Hum is a steady tone too: below this none is looked for unless it is asked for. */
const leastToneHz = 300;
const leastRateHz = 10_000;
const everyS = 0.005;
const trackS = 0.1;

/**
 * Level of a sound for a hand on a screwdriver: two hundred figures a second, each of the last 45 ms, of the strongest steady tone alone where one stands.
 * Where it begins to measure something else, its best begins anew and an event says so.
 *
 * @source LevelMeter, SteadyTone, TopWatch
 */
export class PeakWatch implements Listener {
  private readonly front: Halved;
  private readonly meter: LevelMeter;
  private readonly tone: SteadyTone;
  private readonly hop: number;
  private readonly timeS: number[] = [];
  private readonly levelDbfs: number[] = [];
  private readonly stretches: { readonly fromS: number; readonly measures: Measures; readonly watch: TopWatch }[] = [];
  private calm = new CalmFigure();
  private top: TopNow | undefined;
  private shown: PeakNow["shown"];
  private count = 0;
  private level = Number.NaN;
  private eventsSeen = 0;

  /**
   * @param sampleRateHz samples a second
   * @param ask what is measured
   */
  constructor(
    sampleRateHz: number,
    private readonly ask: PeakAsk,
  ) {
    this.front = halved(sampleRateHz, Math.min(highestHz, usedShare * sampleRateHz), leastRateHz);
    const { rateHz } = this.front;
    const { fromHz, toHz } = ask.range ?? { fromHz: leastToneHz, toHz: highestHz };
    this.tone = new SteadyTone(rateHz, { fromHz, toHz: Math.min(toHz, usedShare * rateHz) });
    this.meter = new LevelMeter(rateHz);
    this.hop = Math.max(1, Math.round(everyS * rateHz));
    this.begin("whole");
  }
  private begin(measures: Measures): void {
    this.stretches.push({ fromS: this.atS, measures, watch: new TopWatch(this.hop / this.front.rateHz, Math.ceil(levelS / everyS)) });
    this.calm = new CalmFigure();
    this.top = undefined;
    this.shown = undefined;
  }
  /** The best so far is forgotten; the tone is looked for as before. */
  afresh(): void {
    this.begin(this.measures);
  }
  private get stretch() {
    return this.stretches[this.stretches.length - 1];
  }
  private get measures(): Measures {
    const { hz } = this.tone;
    const { measures } = this.stretch;
    // a tone that is gone is waited for at its place
    return this.ask.of === "whole" ? "whole" : hz === undefined ? measures : { tone: hz };
  }
  push(x: Float64Array): void {
    const y = this.front.push(x);
    // figure by figure, so that it is the same however the sound comes
    for (let at = 0; at < y.length; ) {
      const part = y.subarray(at, at + this.hop - (this.count % this.hop));
      at += part.length;
      this.count += part.length;
      this.meter.push(part);
      if (this.ask.of === "tone") this.listenForTone(part);
      if (this.count % this.hop === 0) this.take();
    }
  }
  private listenForTone(part: Float64Array): void {
    this.tone.push(part);
    const { events } = this.tone;
    for (; this.eventsSeen < events.length; this.eventsSeen++) {
      const { kind } = events[this.eventsSeen];
      if (kind === "found" || kind === "another") this.begin(this.measures);
    }
  }
  private take(): void {
    const { measures } = this;
    const { watch } = this.stretch;
    this.level = measures === "whole" ? this.meter.wholeDbfs : this.meter.toneDbfs(measures.tone);
    const { atS } = this;
    if (atS < levelS) return;
    watch.take(atS, this.level);
    this.top = watch.now;
    this.shown = this.top && this.calm.take(this.top.underDb, this.top.scatterDb);
    if (atS < (this.timeS.at(-1) ?? -1) + trackS) return;
    this.timeS.push(atS);
    this.levelDbfs.push(this.level);
  }
  private get atS(): number {
    return this.count / this.front.rateHz;
  }
  get now(): PeakNow {
    const { measures, top, shown } = this;
    return {
      atS: this.atS,
      measures,
      lost: measures !== "whole" && this.tone.hz === undefined,
      levelDbfs: this.level,
      top,
      shown,
      passagesCount: this.stretch.watch.passages.length,
    };
  }
  get told(): PeakTold {
    return {
      stretches: this.stretches.map(({ fromS, measures, watch }) => ({ fromS, measures, passages: watch.passages, last: watch.now })),
      events: this.tone.events,
      timeS: this.timeS,
      levelDbfs: this.levelDbfs,
    };
  }
}
