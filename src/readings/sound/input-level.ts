import { Levels } from "./health";

/** How the input stands, over the last seconds. */
export interface InputNow {
  /** highest of the last three seconds, dB re full scale */
  readonly peakDbfs: number;
  /** highest of the last tenth of a second, dB re full scale */
  readonly nowDbfs: number;
  /** places where the wave was cut off since the beginning */
  readonly cutsCount: number;
  readonly is: "cut" | "near the top" | "good" | "quiet" | "nothing";
}
const stepS = 0.1;
const heldS = 3;
/** Limits by common practice, no source. */
const nearTopDbfs = -3;
const quietDbfs = -50;
const nothingDbfs = -90;
const decibels = (v: number): number => 20 * Math.log10(Math.max(1e-15, v));

/** Level and clipping of a live input. */
export class InputWatch {
  private readonly peaks: number[] = [];
  private readonly all = new Levels();
  private readonly stepSamples: number;
  private step = { peak: 0, count: 0 };
  private cutAt = Number.NEGATIVE_INFINITY;

  constructor(private readonly rateHz: number) {
    this.stepSamples = Math.round(stepS * rateHz);
  }
  push(x: Float64Array): void {
    const { cuts } = this.all;
    this.all.push(x);
    if (this.all.cuts > cuts) this.cutAt = this.all.count;
    for (const v of x) {
      this.step.peak = Math.max(this.step.peak, Math.abs(v));
      if (++this.step.count < this.stepSamples) continue;
      this.peaks.push(this.step.peak);
      if (this.peaks.length > heldS / stepS) this.peaks.shift();
      this.step = { peak: 0, count: 0 };
    }
  }
  get now(): InputNow {
    const peakDbfs = decibels(Math.max(this.step.peak, ...this.peaks));
    const isCut = this.all.count - this.cutAt < heldS * this.rateHz;
    return {
      peakDbfs,
      nowDbfs: decibels(Math.max(this.step.peak, this.peaks.at(-1) ?? 0)),
      cutsCount: this.all.cuts,
      is: isCut
        ? "cut"
        : peakDbfs > nearTopDbfs
          ? "near the top"
          : peakDbfs > quietDbfs
            ? "good"
            : peakDbfs > nothingDbfs
              ? "quiet"
              : "nothing",
    };
  }
}
