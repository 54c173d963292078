import { readTable } from "../readings/delimited";
import type { Device } from "../readings/sound/device";
import {
  type BfoStood,
  besideBfo,
  divided,
  type Edge,
  endsAt,
  fromTop,
  inputOf,
  noisePoints,
  type ResponsePoint,
} from "../readings/sound/response";
import { heldOutput, type SteppedBy, type StepsTold } from "../readings/sound/tone-steps";
import type { Spectrum } from "../readings/sound/welch";
import { InputError, orThrow } from "../units/issue";
import type { Heard } from "./heard";

/** How a response was taken. */
export const responseWays = ["loop-back", "audio", "envelope", "bfo", "generator"] as const;
export type ResponseWay = (typeof responseWays)[number];
/** A response as it came out. */
export interface ResponseTold {
  readonly by: ResponseWay;
  readonly heard: readonly Heard[];
  /** relative to the highest; audio, or the IF itself for `bfo` and `generator` */
  readonly points: readonly ResponsePoint[];
  readonly ends: readonly { readonly downDb: number; readonly low?: Edge; readonly high?: Edge }[];
  /** what it is and what it is not, in sentences */
  readonly says: readonly string[];
  readonly warnings: readonly string[];
}
/** Lowest and highest audio of a response to noise, and how many points an octave has. */
export const audioBand = { fromHz: 40, toHz: 5000 };
const audioPoints = { perOctave: 12 };
export const audioResolutionHz = 12;
export const ofStrip = (by: ResponseWay): boolean => by === "bfo" || by === "generator";
const hz = (v: number): string => `${Number(v.toPrecision(3))} Hz`;
const endsOf = (points: readonly ResponsePoint[], downs: readonly number[]): ResponseTold["ends"] =>
  downs.map((downDb) => ({ downDb, ...endsAt(points, downDb) }));

/**
 * A response as this project wrote it: frequency, level, uncertainty.
 *
 * @throws {InputError} where it is none
 */
export function responseIn(file: { readonly name: string; readonly bytes: Uint8Array }, path: string): readonly ResponsePoint[] {
  const { columns } = orThrow(readTable(file.bytes, file.name));
  if (columns.length !== 3)
    throw new InputError([
      { path, code: "no-response", read: file.name, expected: "the three columns that fettle response --by loop-back -o writes" },
    ]);
  const [f, level, u] = columns;
  return Array.from(f.values, (v, i) => ({ hz: v, levelDb: level.values[i], uDb: u.values[i] }));
}
/** Response of a sound device's input, of the file that a loop-back gave: between none of it and all of it. */
export const inputIn = (file: { readonly name: string; readonly bytes: Uint8Array } | undefined): Device | undefined =>
  file && inputOf(responseIn(file, "--device"));
/** Generator's levels as typed: frequency in Hz, level in dBm. */
export function levelsIn(file: { readonly name: string; readonly bytes: Uint8Array }, path: string): ReadonlyMap<number, number> {
  const { columns } = orThrow(readTable(file.bytes, file.name));
  if (columns.length !== 2)
    throw new InputError([
      { path, code: "no-levels", read: file.name, expected: "two columns: frequency in Hz, generator's level in dBm" },
    ]);
  return new Map(Array.from(columns[0].values, (v, i) => [v, columns[1].values[i]]));
}
/** As a file: what a sweep's file has. */
export const responseCsv = ({ points, says }: Pick<ResponseTold, "points" | "says">): string =>
  [
    ...says.map((s) => `# ${s}`),
    "frequency Hz,level dB,uncertainty dB",
    ...points.map((p) => `${p.hz.toFixed(1)},${p.levelDb.toFixed(3)},${p.uDb.toFixed(3)}`),
    "",
  ].join("\n");

interface Noise {
  readonly heard: Heard;
  readonly spectrum: Spectrum;
}
const leftOut = (tonesHz: readonly number[]): string[] =>
  tonesHz.length === 0
    ? []
    : [
        `left out, being tones and not noise: ${tonesHz.slice(0, 6).map(hz).join(", ")}${tonesHz.length > 6 ? ` and ${tonesHz.length - 6} more` : ""}`,
      ];

/** Response of audio stages, or of a sound device, to noise. */
export function audioTold(
  by: "loop-back" | "audio" | "envelope",
  { heard, spectrum }: Noise,
  how: { readonly device?: readonly ResponsePoint[] | undefined; readonly onCarrier: boolean },
): ResponseTold {
  const { points, tonesHz } = noisePoints(spectrum, audioBand, audioPoints);
  // the computer's own noise went out and came in again; the set's own only came in
  const device = how.device && (by === "audio" ? how.device : inputOf(how.device));
  const own = fromTop(device ? divided(points, device) : points);
  return {
    by,
    heard: [heard],
    points: own,
    ends: endsOf(own, [3, 6]),
    says: by === "envelope" ? envelopeSays(own, how.onCarrier) : [audioSays[by]],
    warnings: [...heard.warnings, ...leftOut(tonesHz), ...(device || by === "loop-back" ? [] : [notDivided])],
  };
}
const notDivided = "the sound device's own response is in it: measure that once by a loop-back and give it as well";
const audioSays = {
  "loop-back":
    "The sound device, output and input together. Of the input alone it is known only that it lies between none of this and all of it.",
  audio: "Audio response: the audio stages, from where the noise is led in to the loudspeaker.",
} as const;
/** Noise through an envelope detector: audio and IF together, so that of the IF it tells a bound and no more. */
function envelopeSays(points: readonly ResponsePoint[], onCarrier: boolean): string[] {
  const whole = "Audio response of the whole set, IF included: no selectivity.";
  const end = endsAt(points, onCarrier ? 6 : 10).high;
  if (!end) return [whole, "It reaches beyond what was looked at, so it gives no bound for the IF."];
  return [
    whole,
    onCarrier
      ? `Upper bound on selectivity: ${hz(end.hz)} off the carrier, on its better side, the IF is down by no more than 6 dB, as long as the audio itself does not rise there.`
      : `Upper bound on selectivity: at 10 dB down the IF is no narrower than ${hz(end.hz)}, since noise that far apart gets through together.`,
  ];
}

/** Selectivity by the noise beside a BFO. */
export function bfoTold(noise: Noise, audio: readonly ResponsePoint[], stood: BfoStood, everyHz: number): ResponseTold {
  const { points, tonesHz } = noisePoints(noise.spectrum, { fromHz: 100, toHz: audioBand.toHz }, { everyHz });
  const through = fromTop(divided(points, audio));
  const own = besideBfo(through, stood);
  const left = through.length - own.length;
  return {
    by: "bfo",
    heard: [noise.heard],
    points: own,
    ends: endsOf(own, [3, 6, 20]),
    says: [
      `Selectivity by noise through the product detector, BFO at ${stood.bfoHz} Hz, ${stood.sideband} side, audio response divided out. The far sideband is said to be ${stood.farDownDb} dB down; it may add what the uncertainty allows for.`,
    ],
    warnings: [
      ...noise.heard.warnings,
      ...leftOut(tonesHz),
      ...(left > 0 ? [`${left} of ${through.length} points are so low that the far sideband may reach them: left out`] : []),
    ],
  };
}

/** Selectivity by a generator with fixed modulation. */
export function generatorTold(
  heard: Heard,
  { points, unheard, beyondCount }: StepsTold,
  by: SteppedBy & { readonly withinDb: number; readonly gave?: ReadonlyMap<number, number> | undefined },
): ResponseTold {
  const { points: own, notHeld } = by.gave ? heldOutput(points, by.gave, by.avc) : { points, notHeld: [] };
  const within = fromTop(own.map((p) => ({ ...p, uDb: Math.hypot(p.uDb, by.withinDb) })));
  const some = (what: string, at: readonly number[]): string[] =>
    at.length === 0 ? [] : [`${what} at ${at.length} of ${points.length + unheard.length} frequencies, the first ${hz(at[0])}: left out`];
  return {
    by: "generator",
    heard: [heard],
    points: within,
    ends: endsOf(within, [3, 6, 20]),
    says: [
      `Selectivity by a generator with fixed modulation of ${hz(by.toneHz)}, ${by.holds === "level" ? `its level held, AVC ${by.avc}` : `the output held, AVC ${by.avc}`}.`,
    ],
    warnings: [
      ...heard.warnings,
      ...some("the tone is under the noise", unheard),
      ...some("the output was not held", notHeld),
      ...(beyondCount > 0 ? [`the recording ends before the last ${beyondCount} frequencies`] : []),
      ...(by.holds === "level"
        ? ["a diode detector bends where little reaches it: below 20 dB down hold the output and raise the generator instead"]
        : []),
    ],
  };
}
