import type { ToneEvent } from "../readings/sound/follow";
import { clock } from "../readings/sound/health";
import type { ToneTold } from "../readings/sound/note";
import type { SteadyEvent } from "../readings/sound/steady-tone";
import { decimalsFor } from "../units/print";
import { anded, counted } from "../units/sentence";

/** Words for tones, the same at a terminal and on the page. */

/** Nothing here is shown finer: a tenth of a millihertz. */
export const finestHz = 1e-4;
/** Notes are in hertz, whatever their size: so their neighbours are easily told apart. */
export const plainHz = (hz: number, uHz: number): string => hz.toFixed(decimalsFor(hz, Math.max(finestHz, uHz)));
export const shortHz = (hz: number): string => `${plainHz(hz, 1e-5 * hz)} Hz`;
const wholeHz = (hz: number): string => `${hz.toFixed(0)} Hz`;
/** With its interval, 95 %. */
export const hertzWithin = (hz: number, uHz: number): string =>
  `${plainHz(hz, uHz)} Hz (${plainHz(hz - 1.96 * uHz, uHz)} to ${plainHz(hz + 1.96 * uHz, uHz)})`;

const toneWords: Readonly<Record<ToneEvent["kind"], (e: ToneEvent) => string>> = {
  found: (e) => `found at ${shortHz(e.hz)}`,
  lost: (e) => `lost; it was at ${shortHz(e.hz)}`,
  again: (e) => `there again, at ${shortHz(e.hz)}`,
  stepped: (e) => `stepped from ${"from" in e ? shortHz(e.from) : ""} to ${shortHz(e.hz)}`,
  another: (e) => `another tone is followed from here, at ${shortHz(e.hz)}: whether it is the same one can't be told`,
  second: (e) => `there is a second tone beside it, at ${shortHz(e.hz)}: the first is followed`,
  stronger: (e) => `a stronger tone at ${shortHz(e.hz)} is not followed`,
};
/** What happened to a tone whose frequency is followed. */
export const sayTone = (e: ToneEvent): string => toneWords[e.kind](e);

const mostTimes = 4;
/**
 * What jumps of the phase mean for the mean.
 *
 * @param tone as it was heard
 * @returns a sentence; nothing where it never jumped
 */
export function sayJumps({ jumpsAtS, broken }: Pick<ToneTold, "jumpsAtS" | "broken">): string {
  const n = jumpsAtS.length;
  if (n === 0) return "";
  if (broken)
    return "The phase jumps all the time: sound is being lost on its way in, and the interval is wide for it. Close what else keeps the computer busy, and listen again.";
  const times = jumpsAtS.slice(0, mostTimes).map((at) => clock(at));
  const at = anded(n > mostTimes ? [...times, counted(n - mostTimes, "more time")] : times);
  return `The phase jumped at ${at}: sound was lost there, or the tone was knocked. The mean leaves that out.`;
}

const steadyWords: Readonly<Record<SteadyEvent["kind"], (e: SteadyEvent) => string>> = {
  found: (e) => `a steady tone at ${wholeHz(e.hz)}: from here its level is followed`,
  lost: (e) => `lost; it was at ${wholeHz(e.hz)}`,
  again: (e) => `there again, at ${wholeHz(e.hz)}`,
  second: (e) => `there is a second steady tone beside it, at ${wholeHz(e.hz)}: the first is followed`,
  another: (e) => `another steady tone, at ${wholeHz(e.hz)}: from here that one is followed, and its best begins afresh`,
};
/** What happened to a tone whose level is followed. */
export const saySteady = (e: SteadyEvent): string => steadyWords[e.kind](e);

/** Further off than this it is another tone. Source: common practice, no source. */
const mostOff = 2e-3;
/**
 * The sound device's clock by a standard tone.
 *
 * @param tone as it was heard
 * @param standardHz what it is
 * @param clock by how much the clock was said to run fast, as a share
 * @returns ppm that it runs fast, and how that is typed; only by how many it is off, where it is another tone
 */
export function clockBy(
  tone: Pick<ToneTold, "meanHz" | "uHz" | "steady" | "lowHz" | "highHz">,
  standardHz: number,
  clock: number,
): { readonly offPpm: number; readonly ppm?: string; readonly typed?: string } {
  const now = standardHz / tone.meanHz - 1;
  if (Math.abs(now) > mostOff) return { offPpm: Math.abs(now) * 1e6 };
  // one that wanders is no better a standard than it is steady
  const u = Math.hypot(tone.uHz, tone.steady ? 0 : (tone.highHz - tone.lowHz) / 4) / tone.meanHz;
  const ppm = (clock + now) * 1e6;
  const digits = decimalsFor(ppm, Math.max(0.01, 2e6 * u));
  return {
    offPpm: Math.abs(now) * 1e6,
    ppm: `${Math.abs(ppm).toFixed(digits)} ppm ${ppm > 0 ? "fast" : "slow"}`,
    typed: `${ppm.toFixed(digits)} ppm u ${Math.max(0.01, 1e6 * u).toFixed(2)} ppm`,
  };
}
