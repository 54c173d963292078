import type { GroundOn } from "../../ask/contract";
import type { NoValue } from "../../ask/results";
import { type DriftFit, fitDrift } from "../../infer/drift/fit";
import { settledAfterS, speedHzPerS, tellWarmUp, toComeHz, type WarmUp, type WarmUpTold } from "../../infer/drift/warm-up";
import type { DriftLog } from "../../readings/drift-log";
import { good, type Read } from "../../units/issue";
import { printValue } from "../../units/print";

export interface DriftInputs {
  readonly driftLog: readonly {
    readonly time: number;
    readonly frequency: number;
    readonly temperature: number;
    readonly line: number;
    readonly room: number;
  }[];
  readonly oscillatorFrequency: number;
  readonly minuteLimit: number;
  readonly warmUp: number;
  readonly temperatureRise: number;
  readonly gangNow: number;
  readonly fixedCapacitance: number;
  readonly gangEnd: number;
  readonly coilCoefficient: number;
  readonly gangCoefficient: number;
  readonly compensator: number;
  readonly replacedCoefficient: number;
}
export type DriftNames =
  | "inLog"
  | "atEnd"
  | "whole"
  | "left"
  | "fitAfter"
  | "slow"
  | "fast"
  | "byLine"
  | "perKelvin"
  | "needed"
  | "otherEnd"
  | "miss";
export type G = GroundOn<DriftInputs, DriftNames>;
/** The card's rows as a log: seconds, hertz and volts, NaN where not read. */
export const logOf = (x: DriftInputs): DriftLog => ({
  timeS: Float64Array.from(x.driftLog, (r) => r.time),
  hz: Float64Array.from(x.driftLog, (r) => r.frequency),
  lineV: Float64Array.from(x.driftLog, (r) => r.line),
  roomK: Float64Array.from(x.driftLog, (r) => r.room),
});
/** What these rows tell: one or two time constants fitted, and every warm-up that they leave possible. */
export interface DriftTold {
  readonly fit: DriftFit;
  readonly told: WarmUpTold;
  readonly fromS: number;
}
const fits = new WeakMap<object, Read<DriftTold>>();
/** The fits of these rows, made once. */
export function fitOf(x: DriftInputs): Read<DriftTold> {
  const had = fits.get(x.driftLog);
  if (had) return had;
  const log = logOf(x);
  const fit = fitDrift(log);
  const made: Read<DriftTold> = fit.ok ? good({ fit: fit.value, told: tellWarmUp(log), fromS: log.timeS[0] }) : fit;
  fits.set(x.driftLog, made);
  return made;
}
/** Kelvins from the first to the last reading of the thermometer; undefined where it was not read at both ends, or hardly moved. */
function riseOf(x: DriftInputs): number | undefined {
  const [a, b] = [x.driftLog[0]?.temperature, x.driftLog.at(-1)?.temperature];
  return a !== undefined && b !== undefined && Math.abs(b - a) > 0.5 ? b - a : undefined;
}
/** Why a steady set has no figure for what moves it. */
export const steadyWhy = "its drift is lost in the scatter of the readings";
/** Why no end is given, in words. */
export function noEndWhy({ fit, told }: DriftTold): string {
  if (told.noEnd === "open")
    return `warm-ups with far different ends fit this log of ${printValue(fit.untilS, "time", fit.untilS / 50)} alike, or it is shorter than the 40 min that a chassis takes to show itself`;
  return `no warm-up explains this log: it is missed by ${Math.round(told.misfit.timesNoise * 10) / 10} times what its readings scatter${told.misfit.patterned ? ", the same way for long" : ""}`;
}
/** Drift per kelvin: of the log alone where its own thermometer was read, else of the whole warm-up, where its end is told. */
export function perKelvinOf(x: DriftInputs, w: WarmUp, d: DriftTold): number | NoValue {
  const read = riseOf(x);
  if (d.told.noEnd && (read === undefined || d.told.noEnd === "law-fails")) return { none: noEndWhy(d) };
  const moved = toComeHz(w, d.fromS) - (read === undefined ? 0 : toComeHz(w, d.fit.untilS));
  return -moved / x.oscillatorFrequency / (read ?? x.temperatureRise);
}
/** When it is fit to use: out of the log itself where it comes to rest within it, else only where the end is told. */
function fitAfterOf(x: DriftInputs, w: WarmUp, d: DriftTold): number | NoValue {
  if (d.told.noEnd === "law-fails") return { none: noEndWhy(d) };
  const at = settledAfterS(w, x.minuteLimit / 60, d.fromS);
  return at > d.fit.untilS && d.told.noEnd ? { none: "not within this log" } : at;
}
/** What one possible warm-up comes to: in the log, after it where that is told, and what it means per kelvin. */
export function warmUpFigures(x: DriftInputs, w: WarmUp, d: DriftTold) {
  const none: NoValue = { none: noEndWhy(d) };
  return {
    atEnd: d.told.noEnd === "law-fails" ? none : speedHzPerS(w, d.fit.untilS) * 60,
    whole: d.told.noEnd ? none : -toComeHz(w, d.fromS),
    left: d.told.noEnd ? none : -toComeHz(w, x.warmUp),
    fitAfter: fitAfterOf(x, w, d),
    perKelvin: perKelvinOf(x, w, d),
  };
}
