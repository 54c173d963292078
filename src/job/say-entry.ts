import { chassisSaid } from "../ask/chassis";
import type { SetDescription } from "../set/describe";
import { dayInWords } from "../units/day";
import type { Entry, EntryOf } from "./document";
import { formById } from "./forms";
import { partKindById } from "./mending/kinds";
import { entryIn } from "./place-in";
import { addressLabel, placeLabel } from "./places";
import { workKindById } from "./ripple";
import { stepById } from "./steps";

/** What each act in the life of a fault is called once it is done. */
export const actSaid: Readonly<Record<EntryOf<"fault">["does"], string>> = {
  notice: "noticed",
  trace: "traced",
  cause: "cause found",
  mend: "mended",
  prove: "proved",
  close: "closed",
  leave: "left",
  "open-again": "opened again",
};
const withNote = (said: string, note: string, join = ": "): string => (note === "" ? said : `${said}${join}${note}`);

/**
 * What an entry says, in a line.
 *
 * @param set the job's set, for the names of places
 * @param e the entry
 * @param entries all of the job, so that what was taken back is told by its own words
 * @returns a line for a list of what was recorded
 * @source house format
 */
export function sayEntry(set: SetDescription, e: Entry, entries: readonly Entry[] = []): string {
  switch (e.kind) {
    case "reading":
      return `read ${e.reading.file.name}, ${e.reading.state.replace("-", " ")}`;
    case "work":
      return withNote(workKindById(e.work)?.title ?? e.work, e.note);
    case "done":
      return `proved: ${stepById(e.step)?.title ?? e.step}${e.note ? ` (${e.note})` : ""}`;
    case "values": {
      const paths = Object.keys(e.values);
      return `set ${fewTold(paths.map((p) => addressLabel(set, p)))}: ${e.why}`;
    }
    case "fact":
      return `${addressLabel(set, e.path)}: ${e.value}`;
    case "rows":
      return `${e.rows.length} row${e.rows.length === 1 ? "" : "s"} of ${addressLabel(set, e.path)}`;
    case "chassis":
      return `chassis: ${chassisSaid[e.state]}${e.meter ? `, with ${e.meter}` : ""}`;
    case "estimate":
      return e.note;
    case "form":
      return saidOnCard(e);
    case "instrument":
      return `instrument ${e.instrument.id}`;
    case "attachment":
      return `photograph ${e.name}`;
    case "correction": {
      const of = entryIn(entries, e.supersedes);
      return of ? `took back: ${sayEntry(set, of, entries)}` : `took back an entry: ${e.why}`;
    }
    default:
      return sayOfThread(set, e);
  }
}
/** So many of several are told in full; of more only how many. */
const mostTold = 2;
function fewTold(all: readonly string[], join = ", "): string {
  const more = all.length - mostTold;
  return more > 0 ? `${all.slice(0, mostTold).join(join)}${join}and ${more} more` : all.join(join);
}
/** Letters of a cell that are told in a line. */
const mostLetters = 40;
const cellTold = ([field, text]: readonly [string, string]): string => {
  const named = field.replace(/^row (\d+): /, "row $1, ");
  const told = text.length > mostLetters ? `${text.slice(0, mostLetters).trimEnd()} …` : text;
  return text === "" ? `${named} emptied` : `${named}: ${told}`;
};
/** What was written on a card: the last that was written first, since there the hand stopped. */
const saidOnCard = ({ form, fields }: EntryOf<"form">): string =>
  `${formById(form)?.title ?? form}, ${fewTold(Object.entries(fields).map(cellTold).reverse(), "; ")}`;
function sayOfThread(set: SetDescription, e: Exclude<Entry, { kind: "reading" }>): string {
  switch (e.kind) {
    case "fault":
      return withNote(`fault at ${placeLabel(set, e.place)} ${actSaid[e.does]}`, e.words || (e.cause ?? ""));
    case "part":
      return `${partKindById(e.part)?.title ?? e.part}${e.label ? ` ${e.label}` : ""} at ${placeLabel(set, e.place)}: ${e.came ? "replaced" : "taken out"}`;
    case "sitting":
      return `sitting down: ${[e.initials, e.meter, e.thermal].filter((t) => t).join(", ")}`;
    case "standing":
      return `left ${e.power}, case ${e.case}${e.clipped ? `, ${e.clipped}` : ""}`;
    case "waiting":
      return e.ends ? `no longer waiting: ${e.for}` : `waiting for ${e.for}${e.until ? ` until ${dayInWords(e.until)}` : ""}`;
    case "described":
      return `${e.list}: ${e.member} ${e.as ? "described" : "taken out"}${e.why ? `: ${e.why}` : ""}`;
    default:
      return e.kind;
  }
}
