import { type Halved, halved } from "../../numerics/halving";
import { Crackle, type CrackleTold } from "./crackle";
import type { Device } from "./device";
import type { Range, ToneEvent, ToneReading } from "./follow";
import { type Health, HealthWatch, sideName } from "./health";
import { Hum, type HumTold } from "./hum";
import { type InputNow, InputWatch } from "./input-level";
import type { Listener } from "./listener";
import { BandLevel, type BandTold } from "./noise-level";
import { highestHz, Note, type NoteTold, usedShare } from "./note";
import { type PeakNow, type PeakTold, PeakWatch } from "./peak";
import type { Block, SoundHead } from "./sound";
import { type Slot, type StepsTold, ToneSteps } from "./tone-steps";
import { type Spectrum, Welch } from "./welch";
import { writeWav } from "./write-wav";

/** What a live sound is listened to for. */
export type LiveFor =
  | { readonly what: "peak"; readonly of: "tone" | "whole"; readonly range?: Range | undefined }
  | { readonly what: "note"; readonly everyS: number; readonly range: Range; readonly against?: Range | undefined }
  | TakeFor;
/** What a recording of some seconds, live or from a file, is looked at for as a whole. */
export type TakeFor =
  | { readonly what: "crackle" }
  | { readonly what: "hum"; readonly device?: Device | undefined }
  | { readonly what: "noise"; readonly band: Range; readonly device?: Device | undefined }
  | { readonly what: "response"; readonly resolutionHz: number }
  | { readonly what: "steps"; readonly slots: readonly Slot[]; readonly toneHz: number };
/** What such a recording comes to. */
export interface TakeTold {
  readonly hum?: HumTold | undefined;
  readonly noise?: BandTold | undefined;
  readonly crackle?: CrackleTold | undefined;
  readonly spectrum?: Spectrum | undefined;
  readonly steps?: StepsTold | undefined;
}
/** Who listens for it. */
export interface TakeListener extends Listener {
  readonly told: TakeTold;
}
/**
 * A listener for what is asked, the same for live sound and for a recording.
 *
 * @param ask what for
 * @param sampleRateHz samples a second
 * @param secondsCount how long the sound is, where that is known
 * @source Hum, BandLevel, Crackle, Welch, ToneSteps
 */
export function takeListener(ask: TakeFor, sampleRateHz: number, secondsCount?: number): TakeListener {
  const as = <T>(of: Listener & { readonly told: T }, told: (t: T) => TakeTold): TakeListener => ({
    push: (x) => of.push(x),
    get told() {
      return told(of.told);
    },
  });
  switch (ask.what) {
    case "hum":
      return as(new Hum(sampleRateHz, { secondsCount, device: ask.device }), (hum) => ({ hum }));
    case "crackle":
      return as(new Crackle(sampleRateHz), (crackle) => ({ crackle }));
    case "noise":
      return as(new BandLevel(sampleRateHz, ask.band, ask.device), (noise) => ({ noise }));
    case "response":
      return as(new Welch(sampleRateHz, ask.resolutionHz), (spectrum) => ({ spectrum }));
    case "steps":
      return as(new ToneSteps(sampleRateHz, ask.slots, ask.toneHz), (steps) => ({ steps }));
  }
}
export interface LiveAsk {
  readonly sampleRateHz: number;
  readonly for: LiveFor;
  /** by how much the device's clock runs fast, as a share */
  readonly clock: number;
  /** from 0; the louder one where not said */
  readonly channel?: number | undefined;
  /** when it began, `2026-11-20 19:04:11` */
  readonly begun: string;
  /** bytes of sound that are kept at most; forty minutes of 48 kHz where not said */
  readonly mostBytes?: number | undefined;
}
/** A tone's track as it goes. */
export interface NoteNow {
  readonly following: boolean;
  /** the readings since the last time that this was asked */
  readonly fresh: readonly ToneReading[];
  readonly events: readonly ToneEvent[];
}
/** What a live display shows. */
export interface LiveNow {
  readonly seconds: number;
  /** `left`, `right`; empty where there is one channel */
  readonly side: string;
  /** where the signal is, of several channels */
  readonly sides: HealthWatch["sides"];
  readonly channelsCount: number;
  readonly input: InputNow;
  readonly peak?: PeakNow | undefined;
  readonly note?: NoteNow | undefined;
  /** the sound is kept up to here, s; it goes on without being kept beyond it */
  readonly keptS: number;
}
/** All that was heard so far. */
export interface LiveTold extends TakeTold {
  readonly head: SoundHead;
  readonly health: Health;
  readonly peak?: PeakTold | undefined;
  readonly note?: NoteTold | undefined;
}
/** How a live input is held: by no file. */
export const liveSound = "live";
const leastRateHz = 10_000;
/** Which channel is louder is told by so much sound that is none of silence. */
const chooseS = 0.2;
const silence = 3e-5;
/** Sound that is kept, 16 bits at the lower rate: what one upload holds. */
const mostKeptBytes = 58 * 1024 * 1024;

/**
 * Listens to a live input, block by block, by the same analysis as a recording: level and clipping of the input as it comes; what is asked for, and the
 * sound that is kept, at the lower rate that a receiver's audio needs.
 *
 * @source PeakWatch, Note, HealthWatch
 */
export class Live {
  private readonly input: InputWatch;
  private readonly front: Halved;
  private readonly peak: PeakWatch | undefined;
  private readonly note: Note | undefined;
  private readonly take: TakeListener | undefined;
  private readonly kept: Int16Array[] = [];
  private keptCount = 0;
  private count = 0;
  private toldReadings = 0;
  private channel: number | undefined;
  private channels = 1;
  private energies: number[] = [];
  private health: HealthWatch | undefined;

  /** @param ask what for, and by which rate and clock */
  constructor(private readonly ask: LiveAsk) {
    const { sampleRateHz, clock } = ask;
    this.input = new InputWatch(sampleRateHz);
    this.front = halved(sampleRateHz, Math.min(highestHz, usedShare * sampleRateHz), leastRateHz);
    const rate = this.front.rateHz * (1 + clock);
    if (ask.for.what === "peak") this.peak = new PeakWatch(rate, ask.for);
    else if (ask.for.what === "note") this.note = new Note(rate, ask.for);
    else this.take = takeListener(ask.for, rate);
    this.channel = ask.channel;
  }
  /** One block of every channel. Nothing is analysed before it is known which channel the sound is on. */
  push(block: Block): void {
    this.channels = block.length;
    const x = block[this.channel ?? this.louder(block)] ?? block[0];
    this.input.push(x);
    if (this.channel === undefined) return;
    this.health ??= new HealthWatch({ ...this.ask, channelsCount: block.length, step: 0 }, () => this.channel ?? 0);
    this.health.push(block);
    this.count += x.length;
    const y = this.front.push(x);
    this.keep(y);
    this.peak?.push(y);
    this.note?.push(y);
    this.take?.push(y);
  }
  private louder(block: Block): number {
    this.energies = block.map((x, c) => x.reduce((s, v) => s + v * v, this.energies[c] ?? 0));
    const most = this.energies.indexOf(Math.max(...this.energies));
    if (block.length === 1 || this.energies[most] > chooseS * this.ask.sampleRateHz * silence ** 2) this.channel = most;
    return most;
  }
  private keep(y: Float64Array): void {
    if (2 * (this.keptCount + y.length) > (this.ask.mostBytes ?? mostKeptBytes)) return;
    this.kept.push(Int16Array.from(y, (v) => Math.round(32767 * Math.max(-1, Math.min(1, v)))));
    this.keptCount += y.length;
  }
  /** The best so far is forgotten. */
  afresh(): void {
    this.peak?.afresh();
  }
  /** As the last block left it; readings of a note are given out once. */
  news(): LiveNow {
    const track = this.note?.track;
    const fresh = track?.readings.slice(this.toldReadings) ?? [];
    this.toldReadings += fresh.length;
    return {
      seconds: this.count / this.ask.sampleRateHz,
      side: this.channel === undefined || this.channels === 1 ? "" : sideName(this.channel, this.channels),
      sides: this.health?.sides ?? "several",
      channelsCount: this.channels,
      input: this.input.now,
      peak: this.peak?.now,
      note: this.note && { following: this.note.now !== undefined, fresh, events: track?.events ?? [] },
      keptS: this.keptCount / this.front.rateHz,
    };
  }
  get told(): LiveTold {
    const { ask, channels, count } = this;
    const heldAs = liveSound;
    const head = {
      sampleRateHz: ask.sampleRateHz,
      channelsCount: channels,
      heldAs,
      step: 0,
      samplesCount: count,
      begun: ask.begun,
      warnings: [],
    };
    const health = (this.health ?? new HealthWatch({ ...ask, channelsCount: 1, step: 0 }, () => 0)).health;
    return { head, health, peak: this.peak?.told, note: this.note?.told, ...this.take?.told };
  }
  /** The sound that was kept, as a file. */
  get wav(): Uint8Array<ArrayBuffer> {
    return writeWav(this.kept, Math.round(this.front.rateHz), this.ask.begun);
  }
}
