import type { PeakNow } from "../../../readings/sound/peak";
import type { Place, TopNow } from "../../../readings/sound/top";

/** How the level stands, in words and by a shape. */
export const placeSays: Readonly<Record<Place, readonly [shape: string, says: string]>> = {
  climbing: ["▲", "Climbing"],
  "at the top": ["●", "At the best"],
  "past the top": ["▼", "Past the peak: turn back"],
  "below the best": ["▼", "Below the best: turn the other way"],
};
/** A level with a true minus. */
export const decibels = (db: number): string => `${db < 0 ? "−" : ""}${Math.abs(db).toFixed(1)} dB`;
/** The level against the best, as it is shown large: a true minus, and no minus before a zero. */
export function levelText(shown: PeakNow["shown"]): string {
  if (!shown) return "…";
  const text = Math.abs(shown.db).toFixed(shown.digits);
  return Number(text) === 0 ? text : `${shown.db < 0 ? "−" : "+"}${text}`;
}
/** The same as it is spoken. */
export function spokenLevel(shown: PeakNow["shown"]): string {
  if (!shown) return "";
  const text = Math.abs(shown.db).toFixed(shown.digits);
  return Number(text) === 0 ? "best" : `${shown.db < 0 ? "minus" : "plus"} ${text.replace(".0", "")}`;
}
/** What the level is of. */
export function ofWhat(peak: PeakNow): string {
  if (peak.measures === "whole") return "the whole sound";
  return `the tone at ${peak.measures.tone.toFixed(0)} Hz`;
}
/** Pitch that rises with the level: an octave for 6 dB, 880 Hz at the best. */
export const pitchHz = (top: TopNow): number => 880 * 2 ** Math.max(-3, Math.min(0.5, top.underDb / 6));
