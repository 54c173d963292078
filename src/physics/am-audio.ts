/** What a pass band leaves of AM audio. */
import { rootBetween } from "../numerics/root";
import { finestPart } from "./passband";
import { gainsAt, looks, type Response } from "./response";

/**
 * Relative level of AM audio of one pitch after an envelope detector, at small modulation: half the sum of the two sidebands, each
 * turned back by the carrier's phase.
 *
 *     A(fm) = |H(fc + fm) conj(H(fc)) + conj(H(fc - fm)) H(fc)| / (2 |H(fc)|^2)
 *
 * @param r response
 * @param carrierHz carrier, Hz
 * @param pitchHz audio frequency, Hz
 * @returns ratio, 1 at low pitch
 * @source first-order envelope of a carrier with two sidebands, derived; limit of a symmetric filter is |H(fc + fm)/H(fc)|
 */
export function amAudioRatio(r: Response, carrierHz: number, pitchHz: number): number {
  r.complexAt(carrierHz);
  return audioOver(r, carrierHz, pitchHz, r.re, r.im);
}
/** The same with the carrier's own gain known. */
function audioOver(r: Response, carrierHz: number, pitchHz: number, cRe: number, cIm: number): number {
  r.complexAt(carrierHz + pitchHz);
  let re = r.re * cRe + r.im * cIm;
  let im = r.im * cRe - r.re * cIm;
  r.complexAt(carrierHz - pitchHz);
  re += r.re * cRe + r.im * cIm;
  im += -(r.im * cRe - r.re * cIm);
  return Math.sqrt(re * re + im * im) / (2 * (cRe * cRe + cIm * cIm));
}

/** Pitches are looked at so many at a time, two looks each. */
const looksAtOnce = 64;
/** Audio is looked at from 4 Hz on, 8 % further each time, to 30 kHz. */
const firstPitchHz = 4;
const pitchGrowth = 1.08;
const lastPitchHz = 30_000;
/**
 * Pitch at which AM audio is 3.01 dB down after an envelope detector.
 *
 * @param r response
 * @param carrierHz carrier, Hz
 * @returns Hz, the lowest such pitch; NaN above 30 kHz
 * @source half-power point of amAudioRatio
 */
export function amAudioBandwidthHz(r: Response, carrierHz: number): number {
  r.complexAt(carrierHz);
  const { re, im } = r;
  const over = (pitchHz: number): number => audioOver(r, carrierHz, pitchHz, re, im) - Math.SQRT1_2;
  let below = firstPitchHz / 2;
  let overBelow = Number.NaN;
  for (let pitch = firstPitchHz; pitch < lastPitchHz; ) {
    const first = pitch;
    let n = 0;
    for (; n < looksAtOnce && pitch < lastPitchHz; pitch *= pitchGrowth) {
      looks.hz[n++] = carrierHz + pitch;
      looks.hz[n++] = carrierHz - pitch;
    }
    gainsAt(r, looks, n);
    audioOfLooks(n, re, im);
    for (let i = 0, here = first; i < n; i += 2, here *= pitchGrowth) {
      const overHere = audio[i] - Math.SQRT1_2;
      if (overHere < 0) {
        const ends = Number.isNaN(overBelow) ? undefined : ([overBelow, overHere] as const);
        return rootBetween(over, below, here, finestPart * here, ends);
      }
      below = here;
      overBelow = overHere;
    }
  }
  return Number.NaN;
}
/** What each two looks leave; nothing in it lasts from one call to the next. */
const audio = new Float64Array(looksAtOnce);
/** The same as amAudioRatio of each two looks beside each other, the pitch above the carrier and the pitch below it, into `audio`. */
function audioOfLooks(count: number, cRe: number, cIm: number): void {
  const { re, im } = looks;
  const twice = 2 * (cRe * cRe + cIm * cIm);
  for (let i = 0; i < count; i += 2) {
    const sum = re[i] * cRe + im[i] * cIm + re[i + 1] * cRe + im[i + 1] * cIm;
    const turned = im[i] * cRe - re[i] * cIm - im[i + 1] * cRe + re[i + 1] * cIm;
    audio[i] = Math.sqrt(sum * sum + turned * turned) / twice;
  }
}
