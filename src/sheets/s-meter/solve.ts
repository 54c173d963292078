import type { GroundOn } from "../../ask/contract";
import type { NoValue } from "../../ask/results";
import { judgeMisfit } from "../../numerics/misfit";

export interface Step {
  readonly level: number;
  readonly reading: number;
  readonly avc: number;
  readonly audio: number;
}
export interface MeterInputs {
  readonly steps: readonly Step[];
  readonly generatorError: number;
  readonly needleRead: number;
  readonly wantedS9: number;
  readonly unitWanted: number;
}
export type MeterNames =
  | "s9Level"
  | "s9Off"
  | "perUnit"
  | "unitOff"
  | "unitScatter"
  | "overNine"
  | "leastLevel"
  | "flatness"
  | "knee"
  | "avcDecade";
export type G = GroundOn<MeterInputs, MeterNames>;
/** S units of a reading in decibels over S9, 6 dB each. Source: IARU Region 1. */
export const sNumber = (reading: number): number => 9 + reading / 6;
/** Volts in 50 ohm at a level in dBm. */
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
 * Straight line through points, with the slope's standard uncertainty. Source: least squares, textbook.
 *
 * @source ordinary least squares
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
/** The law of a meter and of the AVC, from steps of a generator; undefined where the steps do not reach. */
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
