import type { Chance } from "../../ask/contract";
import type { ResultsOf } from "../../ask/declare";
import type { NoValue } from "../../ask/results";
import { judgeMisfit } from "../../numerics/misfit";
import type { Asked, ask } from "./ask";

type Step = Asked["steps"][number];
/** S units of a reading in decibels over S9, 6 dB each. Source: IARU Region 1. */
export const sNumber = (reading: number): number => 9 + reading / 6;
/**
 * Reading that the law wanted has at a level.
 *
 * @param x inputs
 * @param level by the generator, dBm
 * @returns decibels over S9 as an S meter counts them, 6 a unit
 * @source IARU Region 1
 */
export function wantedReading(x: Asked, level: number): number {
  const over = level + x.generatorError - x.wantedS9;
  return over <= 0 ? (over / x.unitWanted) * 6 : over;
}
/** Volts in 50 ohm at a level in dBm. Source: identity. */
export const microvolts = (dbm: number): number => Math.sqrt(10 ** (dbm / 10) * 1e-3 * 50);

interface Line {
  readonly slope: number;
  readonly at: number;
  readonly slopeU: number;
  readonly rms: number;
  /** of the slope, for each unit that an x is off by */
  readonly perX: number;
  /** points less line, in their order */
  readonly rest: readonly number[];
}
/**
 * Straight line through points, with the slope's standard uncertainty.
 *
 * @param points x and y
 * @returns the line; undefined for fewer than three points, or all at one x
 * @source ordinary least squares, textbook
 */
export function lineThrough(points: readonly (readonly [x: number, y: number])[]): Line | undefined {
  const n = points.length;
  if (n < 3) return undefined;
  const [mx, my] = [0, 1].map((k) => points.reduce((s, p) => s + p[k], 0) / n);
  const sxx = points.reduce((s, [x]) => s + (x - mx) ** 2, 0);
  if (!(sxx > 0)) return undefined;
  const slope = points.reduce((s, [x, y]) => s + (x - mx) * (y - my), 0) / sxx;
  const at = my - slope * mx;
  const off = points.map(([x, y]) => y - at - slope * x);
  const rest = off.reduce((s, v) => s + v * v, 0);
  return {
    rest: off,
    slope,
    at,
    slopeU: Math.sqrt(rest / Math.max(1, n - 2) / sxx),
    rms: Math.sqrt(rest / n),
    perX: Math.abs(slope) / Math.sqrt(sxx),
  };
}
/**
 * An S unit and its standard uncertainty, by the rule of misfits against how well the needle is read; none where no one unit fits the meter.
 *
 * @param line levels over S numbers, S1 to S9
 * @param needleRead standard uncertainty of a reading, S units; 0 where only the scatter tells
 * @returns dB a unit and its uncertainty, or why there is none
 * @source least squares and numerics/misfit.ts
 */
export function unitOf(line: Line, needleRead: number): { readonly slope: number; readonly u: number } | NoValue {
  const noise = Math.abs(line.slope) * needleRead;
  const misfit = judgeMisfit({ residuals: line.rest, parameters: 2, noiseDoubt: 0.3, ...(noise > 0 ? { noise } : {}) });
  if (noise > 0 && misfit.verdict === "law-fails")
    return {
      none: `no one unit fits this meter: its readings lie ${misfit.timesNoise.toFixed(0)} times as far off a straight law as the needle can be misread`,
    };
  return { slope: line.slope, u: Math.max(line.slopeU, line.perX * needleRead * misfit.widenRatio) };
}
/** Level at which a rising column passes a value, between the steps next to it. */
function levelWhere(steps: readonly Step[], of: (s: Step) => number, value: number): number | undefined {
  for (let i = 1; i < steps.length; i++) {
    const [a, b] = [of(steps[i - 1]), of(steps[i])];
    if (a <= value && b >= value && b > a) return steps[i - 1].level + ((value - a) / (b - a)) * (steps[i].level - steps[i - 1].level);
  }
  return undefined;
}
const within = (s: Step, from: number, to: number): boolean => s.level >= from && s.level <= to;
/** 10 microvolts and 10 millivolts in 50 ohm: over these the output should hardly rise. Common practice; a depot manual asks for 3 dB (read). */
const flatFrom = -87;
const flatTo = -27;

interface Law {
  readonly s9: number | undefined;
  readonly unit: Line | undefined;
  readonly over: Line | undefined;
  readonly least: number | undefined;
  readonly flatness: number | undefined;
  readonly knee: number | undefined;
  readonly avc: Line | undefined;
}
/**
 * The law of a meter and of the AVC; undefined where the steps do not reach.
 *
 * @param steps of the generator, rising: dBm, decibels over S9, V, dB
 * @returns levels in dBm, lines, dB
 * @source derived; what is flat is common practice, no source
 */
export function lawOf(steps: readonly Step[]): Law {
  const read = steps.filter((s) => Number.isFinite(s.reading));
  const below = read.filter((s) => s.reading <= 0 && s.reading > -48);
  const audio = steps.filter((s) => Number.isFinite(s.audio));
  const at = (level: number): number | undefined => {
    const k = audio.findIndex((s) => s.level >= level - 0.05);
    if (k < 0 || (k === 0 && audio[0].level > level + 0.05)) return undefined;
    if (k === 0) return audio[0].audio;
    const t = Math.min(1, (level - audio[k - 1].level) / (audio[k].level - audio[k - 1].level));
    return audio[k - 1].audio * (1 - t) + audio[k].audio * t;
  };
  const [from, to] = [at(flatFrom), at(flatTo)];
  const flat =
    from === undefined || to === undefined ? [] : [from, to, ...audio.filter((s) => within(s, flatFrom, flatTo)).map((s) => s.audio)];
  const topped = audio.findIndex((s, i) => i > 0 && (s.audio - audio[i - 1].audio) / (s.level - audio[i - 1].level) < 0.5);
  return {
    s9: levelWhere(read, (s) => s.reading, 0),
    unit: lineThrough(below.map((s) => [sNumber(s.reading), s.level])),
    over: lineThrough(read.filter((s) => s.reading >= 0).map((s) => [s.level, s.reading])),
    least: read.find((s) => sNumber(s.reading) > 1)?.level,
    flatness: flat.length > 0 ? Math.max(...flat) - Math.min(...flat) : undefined,
    knee: topped > 0 ? audio[topped - 1].level : undefined,
    avc: lineThrough(steps.filter((s) => Number.isFinite(s.avc) && Math.abs(s.avc) > 0.5).map((s) => [s.level / 20, Math.abs(s.avc)])),
  };
}

/**
 * A column of the steps at any level, straight between those that were read.
 *
 * @param steps of the generator, rising
 * @param of the column
 * @returns its value at a level in dBm; NaN beyond the last reading, or where fewer than two were read
 * @source linear interpolation
 */
export function readBetween(steps: readonly Step[], of: (s: Step) => number): (level: number) => number {
  const known = steps.filter((s) => Number.isFinite(of(s)));
  return (level) => {
    const k = known.findIndex((s) => s.level >= level);
    if (known.length < 2 || k < 0) return Number.NaN;
    if (k === 0) return of(known[0]);
    const t = (level - known[k - 1].level) / (known[k].level - known[k - 1].level);
    return of(known[k - 1]) * (1 - t) + of(known[k]) * t;
  };
}
const told = (v: number | undefined, none: string): number | NoValue => (v === undefined ? { none } : v);
/**
 * Results of one draw after the other, by a law that all share.
 *
 * @param law of the meter and the AVC
 * @param chance normals for the unit, the AVC's slope and the needle
 * @returns results in SI by inputs and number of the draw, -1 at the best values
 * @source derived
 */
export function figuresBy(law: Law, chance: Chance): (x: Asked, draw: number) => ResultsOf<typeof ask> {
  const [unitChance, avcChance, needleChance] = ["unit", "avc", "needle"].map((n) => chance.stream(n));
  const noS9 = "no two steps lie on both sides of S9";
  const fewBelow = "fewer than three readings between S1 and S9";
  const constant = {
    unitScatter: told(law.unit?.rms, fewBelow),
    overNine: told(law.over?.slope, "fewer than three readings over S9"),
    flatness: told(law.flatness, "the outputs read do not reach from 10 µV to 10 mV"),
  };
  return (x, draw) => {
    const at = (s: Float64Array): number => (draw < 0 ? 0 : s[draw]);
    const byTrue = (v: number | undefined): number | undefined => (v === undefined ? undefined : v + x.generatorError);
    const unit = law.unit ? unitOf(law.unit, x.needleRead) : { none: fewBelow };
    const perUnit = "none" in unit ? unit : unit.slope + unit.u * at(unitChance);
    const needle = (law.unit?.slope ?? 6) * x.needleRead * at(needleChance);
    const s9 = law.s9 === undefined ? undefined : law.s9 + x.generatorError + needle;
    return {
      s9Level: told(s9, noS9),
      s9Off: told(s9 === undefined ? undefined : s9 - x.wantedS9, noS9),
      perUnit,
      unitOff: typeof perUnit === "number" ? perUnit - x.unitWanted : perUnit,
      leastLevel: told(byTrue(law.least), "it never left its zero"),
      knee: told(byTrue(law.knee), "the output rises with the signal all the way"),
      avcDecade: told(law.avc && law.avc.slope + law.avc.slopeU * at(avcChance), "fewer than three AVC readings above half a volt"),
      ...constant,
    };
  };
}
