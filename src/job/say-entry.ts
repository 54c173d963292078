import { chassisSaid } from "../ask/chassis";
import type { SetDescription } from "../set/describe";
import type { Entry, EntryOf } from "./document";
import { formById } from "./forms";
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
 * @returns a line for a list of what was recorded
 * @source house format
 */
export function sayEntry(set: SetDescription, e: Entry): string {
  switch (e.kind) {
    case "reading":
      return `read ${e.reading.file.name}, ${e.reading.state.replace("-", " ")}`;
    case "work":
      return withNote(workKindById(e.work)?.title ?? e.work, e.note);
    case "done":
      return `proved: ${stepById(e.step)?.title ?? e.step}${e.note ? ` (${e.note})` : ""}`;
    case "values": {
      const paths = Object.keys(e.values);
      return `set ${paths.length > 3 ? `${paths.length} values` : paths.map((p) => addressLabel(set, p)).join(", ")}: ${e.why}`;
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
    case "correction":
      return `took back an entry: ${e.why}`;
    default:
      return sayOfThread(set, e);
  }
}
/** So many fields of a card are told in full. */
const mostTold = 2;
/** What was written on a card: a field or two in full, more by their number. */
function saidOnCard({ form, fields }: EntryOf<"form">): string {
  const written = Object.entries(fields);
  const told = written.map(([f, text]) => (text === "" ? `${f} emptied` : `${f} ${text}`)).join(", ");
  return `${formById(form)?.title ?? form}: ${written.length > mostTold ? `${written.length} fields written` : told}`;
}
function sayOfThread(set: SetDescription, e: Exclude<Entry, { kind: "reading" }>): string {
  switch (e.kind) {
    case "fault":
      return withNote(`fault at ${placeLabel(set, e.place)} ${actSaid[e.does]}`, e.words || (e.cause ?? ""));
    case "part":
      return `${e.part}${e.label ? ` ${e.label}` : ""} at ${placeLabel(set, e.place)}: ${e.came ? "replaced" : "taken out"}`;
    case "sitting":
      return `sitting down: ${[e.initials, e.meter, e.thermal].filter((t) => t).join(", ")}`;
    case "standing":
      return `left ${e.power}, case ${e.case}${e.clipped ? `, ${e.clipped}` : ""}`;
    case "waiting":
      return e.ends ? `no longer waiting: ${e.for}` : `waiting for ${e.for}${e.until ? ` until ${e.until.slice(0, 10)}` : ""}`;
    case "described":
      return `${e.list}: ${e.member} ${e.as ? "described" : "taken out"}${e.why ? `: ${e.why}` : ""}`;
    default:
      return e.kind;
  }
}
