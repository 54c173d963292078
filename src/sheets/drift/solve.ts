import { noneOf } from "../../ask/declare";
import type { NoValue } from "../../ask/results";
import { type DriftFit, fitDrift } from "../../infer/drift/fit";
import { tellWarmUp, type WarmUpTold } from "../../infer/drift/tell-warm-up";
import { settledAfterS, speedHzPerS, toComeHz, type WarmUp } from "../../infer/drift/warm-up";
import { remembering } from "../../numerics/remember";
import { circuitTcf, compensatorF, fixedFor, type WarmCircuit } from "../../physics/temperature";
import { type DriftLog, logIssues } from "../../readings/drift-log";
import { good, type Read } from "../../units/issue";
import { printValue } from "../../units/print";
import type { Asked } from "./ask";

/** The card's rows as a log: seconds, hertz, volts and kelvins, NaN where not read. */
export const logOf = (rows: Asked["driftLog"]): DriftLog => ({
  timeS: Float64Array.from(rows, (r) => r.time),
  hz: Float64Array.from(rows, (r) => r.frequency),
  lineV: Float64Array.from(rows, (r) => r.line),
  roomK: Float64Array.from(rows, (r) => r.room),
});
/** What these rows tell: one or two time constants fitted, and every warm-up that they leave possible. */
export interface DriftTold {
  readonly fit: DriftFit;
  readonly told: WarmUpTold;
  readonly fromS: number;
}
/**
 * What the rows of a log tell, or what is wrong with them; the same log is not fitted again.
 *
 * @param rows of the log
 * @returns fits, or issues at their rows
 * @source infer/drift
 */
export const toldBy = remembering(
  (rows: Asked["driftLog"]) => rows.map((r) => Object.values(r).join(" ")).join(";"),
  (rows): Read<DriftTold> => {
    const log = logOf(rows);
    const wrong = logIssues(log, "driftLog");
    if (wrong.length > 0) return { ok: false, issues: wrong };
    const cool = rows.findIndex((r) => r.temperature < -60 || r.temperature > 200);
    if (cool >= 0) {
      const read = String(rows[cool].temperature);
      return { ok: false, issues: [{ path: `driftLog row ${cool + 1}`, code: "out-of-range", read, expected: "-60 to 200 °C" }] };
    }
    const fit = fitDrift(log);
    if (!fit.ok) return { ok: false, issues: fit.issues.map((i) => ({ ...i, path: "driftLog" })) };
    return good({ fit: fit.value, told: tellWarmUp(log), fromS: log.timeS[0] });
  },
  4,
);

/** Why a steady set has no figure for what moves it. */
export const steadyWhy = "its drift is lost in the scatter of the readings";
/**
 * Why no end is given, in words.
 *
 * @param d what the log tells
 * @returns the reason, as it stands in place of a figure
 * @source house rule
 */
export function noEndWhy({ fit, told }: DriftTold): string {
  if (told.noEnd === "open")
    return `warm-ups with very different ends fit this log of ${printValue(fit.untilS, "time", fit.untilS / 50)} alike, or it is shorter than the 40 min that a chassis takes to show itself`;
  return `no warm-up explains this log: the misfit is ${Math.round(told.misfit.timesNoise * 10) / 10} times the scatter of the readings${told.misfit.patterned ? ", in long runs to one side" : ""}`;
}
/** Kelvins from the first to the last reading of the thermometer; undefined where it was not read at both ends, or hardly moved. */
function riseOf(rows: Asked["driftLog"]): number | undefined {
  const [a, b] = [rows[0]?.temperature, rows.at(-1)?.temperature];
  return a !== undefined && b !== undefined && Math.abs(b - a) > 0.5 ? b - a : undefined;
}

interface Moves {
  readonly atEnd: number | NoValue;
  readonly whole: number | NoValue;
  readonly left: number | NoValue;
  readonly fitAfter: number | NoValue;
  readonly perKelvin: number | NoValue;
}
/**
 * What one possible warm-up comes to: in the log, after it where that is told, and what it means per kelvin.
 *
 * @param rows of the log
 * @param d what they tell
 * @returns Hz, Hz a minute, s and relative drift per kelvin by inputs and warm-up; drift per kelvin is of the log alone where its own thermometer
 * was read, else of the whole warm-up, where its end is told
 * @source derived
 */
export function movesBy(rows: Asked["driftLog"], d: DriftTold): (x: Asked, w: WarmUp) => Moves {
  const { noEnd } = d.told;
  const { untilS } = d.fit;
  const none: NoValue = { none: noEndWhy(d) };
  const read = riseOf(rows);
  const noKelvin = noEnd === "law-fails" || (noEnd && read === undefined);
  const settled = settledBy(d.fromS);
  const fitAfter = (x: Asked, w: WarmUp): number | NoValue => {
    if (noEnd === "law-fails") return none;
    const at = settled(w, x.minuteLimit / 60);
    return at > untilS && noEnd ? { none: "not within this log" } : at;
  };
  return (x, w) => {
    const all = toComeHz(w, d.fromS);
    const moved = all - (read === undefined ? 0 : toComeHz(w, untilS));
    return {
      atEnd: noEnd === "law-fails" ? none : speedHzPerS(w, untilS) * 60,
      whole: noEnd ? none : -all,
      left: noEnd ? none : -toComeHz(w, x.warmUp),
      fitAfter: fitAfter(x, w),
      perKelvin: noKelvin ? none : -moved / x.oscillatorFrequency / (read ?? x.temperatureRise),
    };
  };
}
/** When a warm-up comes to rest: looked for again only where the limit is another, since many draws share a warm-up. */
function settledBy(fromS: number): (w: WarmUp, limitHzPerS: number) => number {
  const known = new Map<WarmUp, { readonly limitHzPerS: number; readonly atS: number }>();
  return (w, limitHzPerS) => {
    const before = known.get(w);
    if (before?.limitHzPerS === limitHzPerS) return before.atS;
    const atS = settledAfterS(w, limitHzPerS, fromS);
    known.set(w, { limitHzPerS, atS });
    return atS;
  };
}

/**
 * The oscillator's circuit, with that coefficient of its fixed capacitors which gives the drift per kelvin.
 *
 * @param x inputs
 * @param perKelvin relative drift per kelvin
 * @returns F, and coefficients per kelvin
 * @source physics/temperature.ts
 */
export function circuitOf(x: Asked, perKelvin: number): WarmCircuit {
  const parts = { fixedF: x.fixedCapacitance, coilPerK: x.coilCoefficient, gangPerK: x.gangCoefficient };
  return { ...parts, fixedPerK: fixedFor(perKelvin, parts, x.gangNow) };
}
/**
 * The capacitor that stills it, and what is then left at the other place of the dial.
 *
 * @param x inputs
 * @param perKelvin relative drift per kelvin, or why there is none
 * @returns F, and relative drift per kelvin
 * @source df/f = -dC/(2 C); the compensator takes the place of the replaced one, whatever the rest of the fixed capacitors is
 */
export function compensation(
  x: Asked,
  perKelvin: number | NoValue,
): { readonly needed: number | NoValue; readonly otherEnd: number | NoValue } {
  if (typeof perKelvin !== "number") return { needed: perKelvin, otherEnd: perKelvin };
  const both = ["needed", "otherEnd"] as const;
  const steeper = x.compensator + x.replacedCoefficient;
  if (!(steeper > 0)) return noneOf(both, "the capacitor replaced has as negative a coefficient as the new one: nothing is gained");
  const needed = compensatorF(perKelvin, x.gangNow + x.fixedCapacitance, x.compensator, x.replacedCoefficient);
  if (!(needed > 0)) return noneOf(both, "the frequency rises as it warms: a capacitor of negative coefficient would make it worse");
  const otherEnd = circuitTcf(circuitOf(x, perKelvin), x.gangEnd) + (0.5 * needed * steeper) / (x.fixedCapacitance + x.gangEnd);
  return { needed, otherEnd };
}
