import { printInterval } from "../../../units/print";
import { counted, upperFirst } from "../../../units/sentence";
import { type Known, type KnownLine, leastSets, type Often } from "./known";

const percent = (share: number): string => `${Math.round(100 * share)} %`;
/** How often, and between what shares that lies at 95 %; with few sets the count alone. */
const sayOften = ({ hitCount, ofCount, low, high }: Often, did: string): string =>
  low === undefined || high === undefined
    ? `${did} in ${hitCount} of ${counted(ofCount, "set")}`
    : `${did} in ${hitCount} of ${counted(ofCount, "set")} (${Math.round(100 * low)} to ${percent(high)} at 95 % confidence)`;

function sayWinding({ what, sets, by }: KnownLine): string {
  const middle = by ? `; the middle one ${printInterval(by.median, by.low, by.high, "frequency")} off` : "";
  return `${upperFirst(what)}: ${sayOften(sets, "off")}${middle}.`;
}
function sayPart({ what, sets, parts }: KnownLine, did: string): string {
  const many = parts && parts.judgedCount > sets.ofCount ? `; ${parts.failedCount} of ${parts.judgedCount} judged` : "";
  return `${upperFirst(what)}: ${sayOften(sets, did)}${many}.`;
}
function sayDrift({ sets, by }: KnownLine): string {
  if (!by) return `Logged past the first hour in ${sets.hitCount} of ${counted(sets.ofCount, "set")}: too few to call anything typical.`;
  return `After the first hour, an hour: the middle one of ${counted(by.ofCount, "set")} ${printInterval(by.median, by.low, by.high, "ppm")}.`;
}

/** What the records know, heading by heading, each line a sentence. */
export interface KnownSaid {
  readonly headline: string;
  readonly parts: readonly { readonly heading: string; readonly lines: readonly string[] }[];
  readonly kinds: readonly string[];
  /** how the figures are to be read */
  readonly note: string;
}
/**
 * What the records know, in words.
 *
 * @param known as it was counted
 * @returns sentences; no share and no middle of fewer sets than may be called typical
 * @source house frame
 */
export function sayKnown(known: Known): KnownSaid {
  const { setsCount, kinds, windings, capacitors, tubes, drift } = known;
  const parts = [
    { heading: "IF cans, as found", lines: windings.map(sayWinding) },
    { heading: "Capacitors", lines: capacitors.map((l) => sayPart(l, "failed")) },
    { heading: "Tubes", lines: tubes.map((l) => sayPart(l, "worn or failed")) },
    { heading: "Drift", lines: drift ? [sayDrift(drift)] : [] },
  ].filter((p) => p.lines.length > 0);
  return {
    headline:
      setsCount === 0
        ? "No set of that kind is in the records."
        : `${upperFirst(counted(setsCount, "set"))} in the records${parts.length === 0 ? "; nothing was judged in them yet" : ""}.`,
    parts,
    kinds: kinds.map((k) => `${k.kind}: ${counted(k.setsCount, "set")}`),
    note: `Below ${leastSets} sets only the count is given. Demo jobs, copies and what was taken back don't count, nor what went untested. A set counts once by its serial.`,
  };
}
