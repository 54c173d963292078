import type { Answer } from "../ask/answered";
import { firstTapsOf, type LiveSide } from "../invented/rehearsal/live-strip";
import { heardBandwidthHz, heardNoiseHz, neighbourDownDb, signalToNoiseDb, whistleDownDb } from "../invented/rehearsal/measured";
import { type Beside, baseband, rehearsalRateHz, type Scene } from "../invented/rehearsal/scene";
import { type Detector, type DrawnResponse, heard, middleOf, strip } from "../invented/rehearsal/through";
import { equalGains, equallyLoud } from "../readings/sound/loudness";
import { wavOf } from "../readings/sound/wav-with-card";
import { InputError, orThrow } from "../units/issue";
import { oneOf } from "../units/nearest";
import { parseQuantity } from "../units/parse";

/** The strip before and after a change, heard with one scene. */
export interface Rehearsed {
  /** equally loud, the same length */
  readonly asItIs: Float64Array;
  readonly asItWouldBe: Float64Array;
  readonly figures: readonly HeardFigure[];
  /** what it is, for file and page */
  readonly card: string;
}
/** One value measured on what is heard, before and after. */
export interface HeardFigure {
  readonly name: string;
  readonly asItIs: string;
  readonly asItWouldBe: string;
}

/** Strip, AVC and amplifier come to rest in so much, s: it is not heard. */
export const runInS = 0.5;

const drawn = (answer: Answer, curve: string): DrawnResponse => {
  const c = Object.entries(answer.curves).find(([id]) => id === curve)?.[1];
  if (!c) throw new InputError([{ path: answer.sheet, code: "no-curve", read: curve, expected: oneOf(curve, Object.keys(answer.curves)) }]);
  return { frequencyHz: Array.from(c.x), levelDb: Array.from(c.y) };
};
const hz = (v: number | undefined): string => (v === undefined ? "above 8 kHz" : `${Number(v.toPrecision(2))} Hz`);

/**
 * Levels and distances of what is beside the wanted station, as typed: `9 kHz, -10 dB`.
 *
 * @throws {InputError} that names the option
 */
export function besideOf(texts: readonly string[], path: string): Beside[] {
  return texts.map((text) => {
    const [off, level, more] = text.split(",");
    if (level === undefined || more !== undefined)
      throw new InputError([{ path, code: "not-a-pair", read: text, expected: "how far off and how strong, such as 9 kHz, -10 dB" }]);
    const offHz = orThrow(parseQuantity(off, "frequency", path)).value;
    const levelDb = orThrow(parseQuantity(level, "decibel", path)).value;
    if (!(Math.abs(offHz) < 11_000))
      throw new InputError([{ path, code: "out-of-range", read: off, expected: "within 11 kHz of the station" }]);
    return { offHz, levelDb };
  });
}

/** What comes in: a scene, or in its place a band as the person recorded it. */
export interface Comes {
  readonly scene: Scene;
  /** its name; its samples, where they are here and not on the page */
  readonly own?: { readonly name: string; readonly band?: Float64Array | undefined } | undefined;
  /** where the noise of the scene comes from */
  readonly noiseSays: string;
}
/** What was measured on both, where a figure has a meaning on this kind of station. */
function figuresOf(a: Float64Array, b: Float64Array, { scene, own }: Comes, { audio: ends }: Detector): HeardFigure[] {
  const both = (name: string, of: (passes: Float64Array) => string): HeardFigure => ({ name, asItIs: of(a), asItWouldBe: of(b) });
  const noise = both("noise that comes through, as a bandwidth", (p) => hz(heardNoiseHz(p)));
  if (scene.kind !== "am") return [noise];
  const audio = both("AM audio, 3 dB down at", (p) => hz(heardBandwidthHz(p)));
  // how strong its stations and its noise are, a recording doesn't say
  if (own) return [audio, noise];
  return [
    audio,
    both("(S+N)/N, 30 % at 400 Hz", (p) => `${signalToNoiseDb(p, scene.noiseDb).toFixed(0)} dB`),
    noise,
    ...scene.neighbours.map((n) =>
      both(`another station ${Math.round(n.offHz)} Hz off, under the wanted one`, (p) => `${neighbourDownDb(p, n, ends).toFixed(0)} dB`),
    ),
    ...scene.carriers.map((c) =>
      both(
        `whistle of ${Math.round(c.offHz)} Hz, under a fully modulated tone`,
        (p) => `${(whistleDownDb(p, c.offHz) - c.levelDb).toFixed(0)} dB`,
      ),
    ),
  ];
}

/** What a face that plays by itself needs: what arrives is sent once, the strips with each turn of a knob. */
export interface LiveParts {
  readonly sides: readonly [LiveSide, LiveSide];
  readonly detector: Detector;
  readonly card: string;
}
/** A scene and the two strips that it goes through; nothing is rendered before it is asked for. */
export interface Rehearsal {
  readonly rendered: () => Rehearsed;
  readonly live: () => LiveParts;
  /** what arrives, complex, as bytes of 32-bit floats */
  readonly band: () => Uint8Array;
}
/** Loudness is told by so much of it while a knob turns, s. */
const loudS = 4;

/**
 * A scene through a strip as it is and as it would be, by the curves of two answers of one question.
 *
 * @param is answer of the set as it stands, and its curve
 * @param would answer with what was tried, and its curve
 * @param comes what comes in
 * @param detector how it is heard
 * @returns the ways to both sounds and what was measured on them
 * @throws {InputError} where a curve is not there
 */
export function rehearse(
  is: { readonly answer: Answer; readonly curve: string },
  would: { readonly answer: Answer; readonly curve: string },
  comes: Comes,
  detector: Detector,
): Rehearsal {
  const { scene, own } = comes;
  const [before, after] = [drawn(is.answer, is.curve), drawn(would.answer, would.curve)];
  const tunedHz = middleOf(before);
  const [a, b] = [strip(before, tunedHz), strip(after, tunedHz)];
  const runIn = Math.round(runInS * rehearsalRateHz);
  const played = (z: Float64Array) => [a, b].map((passes) => heard(z, passes, detector).slice(runIn));
  const samples = (seconds: number): number => 2 * Math.round((seconds + runInS) * rehearsalRateHz);
  const inBand = (seconds: number) => own?.band?.subarray(0, samples(seconds)) ?? baseband({ ...scene, seconds: seconds + runInS });
  const example = would.answer.unread.length > 0 ? " This set's own values are not read yet: an EXAMPLE." : "";
  const what = own
    ? `A model of this set's strip, and a recording through it that was not taken of this set's sound: ${own.name}`
    : "A model and an invented scene, no recording of this set";
  const card = `${what}: ${would.answer.title}. Equally loud by ITU-R BS.1770.${own ? "" : comes.noiseSays}${example}`;
  return {
    rendered: () => {
      const [asItIs, asItWouldBe] = equallyLoud(played(inBand(scene.seconds)), rehearsalRateHz);
      return { asItIs, asItWouldBe, figures: figuresOf(a, b, comes, detector), card };
    },
    live: () => {
      // on the page a person's own band is played there, and made equally loud there
      const gains = own && !own.band ? [1, 1] : equalGains(played(inBand(Math.min(loudS, scene.seconds))), rehearsalRateHz);
      const side = (passes: Float64Array, gain: number): LiveSide => ({
        taps: Array.from(firstTapsOf(passes), (v) => Number(v.toPrecision(7))),
        gain,
      });
      return { sides: [side(a, gains[0]), side(b, gains[1])], detector, card };
    },
    band: () => new Uint8Array(Float32Array.from(baseband(scene)).buffer),
  };
}

export const rehearsedWav = ({ asItIs, asItWouldBe, card }: Rehearsed): Uint8Array =>
  wavOf([asItIs, asItWouldBe], rehearsalRateHz, `Left as it is, right as it would be. ${card}`);
export const rehearsedFiles = ({ asItIs, asItWouldBe, card }: Rehearsed): readonly [asItIs: Uint8Array, asItWouldBe: Uint8Array] => [
  wavOf([asItIs], rehearsalRateHz, `As it is. ${card}`),
  wavOf([asItWouldBe], rehearsalRateHz, `As it would be. ${card}`),
];
