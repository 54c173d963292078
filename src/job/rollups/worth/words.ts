import { stateWord } from "../../../standards/cautions";
import type { Range } from "../../../standards/minutes";
import { momentInWords } from "../../../units/day";
import type { Cost } from "./costs";
import type { AtOnce, Waited, Worth } from "./worth";

/** Minutes as a person says them: to five from ten on, in hours from two hours on. */
const inHours = (min: number): boolean => min >= 115;
const number = (min: number, hours: boolean): string =>
  String(hours ? Number((min / 60).toPrecision(2)) : min >= 10 ? 5 * Math.round(min / 5) : Math.max(1, Math.round(min)));
const unit = (hours: boolean): string => (hours ? "h" : "min");
const time = (min: number): string => `${number(min, inHours(min))} ${unit(inHours(min))}`;
function range([low, high]: Range): string {
  if (time(low) === time(high)) return time(low);
  const alike = inHours(low) === inHours(high);
  return `${alike ? number(low, inHours(low)) : time(low)} to ${time(high)}`;
}
/**
 * What a choice takes, in words.
 *
 * @param cost minutes of hands and by itself, and turns of the case
 * @returns such as `10 to 20 min`
 * @source house format
 */
export const costText = ({ hands, itself, turns }: Cost): string =>
  [
    `${range(hands)}${turns.length > 0 ? `, with: ${turns.join("; ")}` : ""}`,
    ...(itself[1] > 0 ? [`${range(itself)} more running on its own: stay with the set`] : []),
  ].join("; ");

/**
 * What is waited for, and what it holds up.
 *
 * @param w what is waited for
 * @returns a line
 * @source house format
 */
export const waitedText = (w: Waited): string =>
  `${w.for}${w.until ? `, until ${momentInWords(w.until)}` : ""}${w.holds.length > 0 ? `: then ${w.holds.join("; ")}` : ""}`;
/**
 * How many choices are left out, and why.
 *
 * @param worth the list
 * @returns a sentence; empty where none is
 * @source house format
 */
export function leftOutText({ leftOut: { safety, open, long } }: Worth): string {
  const parts = [
    ...(safety > 0 ? [`${safety} waiting for a safety step`] : []),
    ...(open > 0 ? [`${open} ${open === 1 ? "needs" : "need"} the set open`] : []),
    ...(long > 0 ? [`${long} ${long === 1 ? "takes" : "take"} longer`] : []),
  ];
  return parts.length > 0 ? `Left out: ${parts.join(", ")}.` : "";
}
/**
 * What is left to do, and how long it takes.
 *
 * @param worth the list
 * @returns a sentence
 * @source house format
 */
export function remainingText({ remaining: r }: Worth): string {
  if (r.steps === 0) return "Nothing is left to do.";
  const itself = r.itself[1] > 0 ? `, plus ${range(r.itself)} running on its own` : "";
  const faults = r.faults > 0 ? `; about ${time(r.faults)} of that to find and mend what is wrong` : "";
  return `Left to do: ${r.steps} ${r.steps === 1 ? "step" : "steps"}, about ${time(r.hands)} of work (${range(r.range)})${itself}${faults}.`;
}

/**
 * Several at one opening, in a sentence.
 *
 * @param a the batch
 * @returns what is done together, and what it takes
 * @source house frame
 */
export const atOnceText = (a: AtOnce): string =>
  `Better together, at one opening, about ${time(a.minutes)} with getting there: ${a.does.join("; ")} [${stateWord[a.wants]}].`;
