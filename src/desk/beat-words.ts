import type { NoteTold, ToneTold } from "../readings/sound/note";
import { printInterval } from "../units/print";
import { hertzWithin, plainHz } from "./tone-words";

/** What a beat is of its carrier, the same at a terminal and on the page. */

/** What of a note is kept. */
export interface NoteKept {
  readonly tone?: Pick<ToneTold, "readings" | "meanHz" | "uHz"> | undefined;
  readonly apart?: { readonly meanHz: number; readonly uHz: number } | undefined;
  readonly swell?: { readonly hz: number; readonly uHz: number } | undefined;
}
/** A tone is a multiple of a swell within so many of both uncertainties, or this share. */
const within = 4;
const withinShare = 2e-3;
const mostMultiple = 6;
/** Hum lies within this share of a multiple of 50 or 60 Hz. */
const humShare = 2e-3;

type Beating = Pick<NoteKept, "swell"> & { readonly tone?: { readonly meanHz: number; readonly uHz: number } | undefined };
/**
 * Whether a tone is a swell's own: the swell is the beat then, and the tone a multiple of it, the sixth at most.
 *
 * @param told what was heard
 * @returns which multiple, from 2; none where the tone is something else
 */
export function multipleOfSwell({ tone, swell }: Beating): number | undefined {
  if (!tone || !swell) return undefined;
  const order = Math.round(tone.meanHz / swell.hz);
  const off = Math.abs(tone.meanHz - order * swell.hz);
  const reach = Math.max(within * Math.hypot(tone.uHz, order * swell.uHz), withinShare * tone.meanHz);
  return order >= 2 && order <= mostMultiple && off < reach ? order : undefined;
}
/** A multiple of the mains that swells with the tone beside it, so that the swell is no beat of two carriers. */
function humBeside({ tone, swell }: Beating): number | undefined {
  if (!tone || !swell) return undefined;
  return [50, 60]
    .flatMap((mains) => [1, 2, 3, 4].map((k) => k * mains))
    .find((hz) => Math.abs(Math.abs(tone.meanHz - hz) - swell.hz) < Math.max(within * swell.uHz, humShare * hz));
}
/** The beat that a recording shows, the surest way first; a swell that hum makes beside the tone is none. */
export function beatOf(told: NoteKept): { readonly hz: number; readonly uHz: number; readonly method: "tone" | "flutter" } | undefined {
  const { apart, swell, tone } = told;
  if (apart) return { hz: Math.abs(apart.meanHz), uHz: apart.uHz, method: "tone" };
  if (swell && (multipleOfSwell(told) !== undefined || humBeside(told) === undefined))
    return { hz: swell.hz, uHz: swell.uHz, method: "flutter" };
  return tone && { hz: tone.meanHz, uHz: tone.uHz, method: "tone" };
}
const ofCarrier = (hz: number, uHz: number, carrierHz: number | undefined): string =>
  carrierHz === undefined
    ? ""
    : `, ${printInterval(hz / carrierHz, (hz - 1.96 * uHz) / carrierHz, (hz + 1.96 * uHz) / carrierHz, "ppm")} of the carrier`;

/**
 * What beats in a sound, with its interval, and as a part of the carrier where that is known.
 *
 * @param told what was heard
 * @param carrierHz of the station that the tone beats with
 * @param clockU standard uncertainty of the sound device's clock, as a share
 * @returns sentences; none where nothing beats, or a tone alone has no carrier
 */
export function sayBeat(
  told: Pick<NoteTold, "apart" | "swell"> & Beating,
  carrierHz: number | undefined,
  clockU: number,
): readonly string[] {
  const { tone, apart, swell } = told;
  const told95 = (hz: number, uHz: number): string => `${hertzWithin(hz, uHz)}${ofCarrier(hz, uHz, carrierHz)}`;
  const toneOf = (t: { readonly meanHz: number; readonly uHz: number }): string =>
    ofCarrier(t.meanHz, Math.hypot(t.uHz, t.meanHz * clockU), carrierHz);
  const order = multipleOfSwell(told);
  const hum = order === undefined ? humBeside(told) : undefined;
  return [
    ...(apart ? [`The second tone lies off the first by ${told95(apart.meanHz, Math.hypot(apart.uHz, apart.meanHz * clockU))}.`] : []),
    ...(swell
      ? [
          `Slow swell: ${told95(swell.hz, swell.uHz)}: ${swell.beatsCount.toFixed(0)} beats, ${swell.depthDb.toFixed(0)} dB from trough to top; two carriers that far apart.`,
        ]
      : []),
    ...(tone && order !== undefined
      ? [`The tone at ${plainHz(tone.meanHz, 0.1)} Hz is ${order} times that: it comes of the swell and is no other beat.`]
      : []),
    ...(tone && hum !== undefined
      ? [
          `But hum at ${hum} Hz lies that far from the tone at ${plainHz(tone.meanHz, 0.1)} Hz and makes the same swell: the tone is taken for the beat${toneOf(tone)}. With the BFO on it would be the swell.`,
        ]
      : []),
    ...(tone && !apart && !swell && carrierHz !== undefined ? [`That is ${toneOf(tone).slice(2)}.`] : []),
  ];
}
