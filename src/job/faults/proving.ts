import { onceFor } from "../../numerics/once";
import { socketNumber } from "../../set/sockets";
import type { Issue } from "../../units/issue";
import { writingOn } from "../cards";
import type { Entry, EntryOf } from "../document";
import { rowOfField } from "../forms";
import { ofKind, placeIn } from "../place-in";
import { lastRead } from "../readings-in";
import type { JobView } from "../view";
import type { Fault } from "./faults";

/** Sockets of the tubes that stand at a place. */
const socketsAt = (view: JobView, place: string): readonly number[] =>
  view.set.tubes.filter((t) => `stages.${t.stage}` === place).map((t) => Math.floor(socketNumber(t.socket) ?? 0));
const isStrip = (view: JobView, place: string): boolean =>
  place === "strip" || view.set.stages.some((s) => `stages.${s.id}` === place && (s.kind === "can" || s.kind === "filter"));

const isAntenna = (view: JobView, place: string): boolean =>
  view.set.stages.some((s) => s.kind === "antenna" && `stages.${s.id}` === place);

/** Whether an entry of the voltage chart reads a point at a place: a socket of the stage, or B+ at the supply. */
function readsChart(view: JobView, e: EntryOf<"form">, place: string): boolean {
  const on = writingOn(view, e.form);
  const sockets = socketsAt(view, place);
  return Object.keys(e.fields).some((field) => {
    const row = rowOfField(field);
    if (row === undefined || !/: Measured (?:V|Ω)$/.test(field) || e.fields[field] === "") return false;
    if (place === "supplies") return /^(b\+|ht|supply)/i.test(on.get(`row ${row}: Electrode`)?.text ?? "");
    return sockets.includes(Math.floor(socketNumber(on.get(`row ${row}: Tube`)?.text ?? "") ?? -1));
  });
}

/**
 * Whether an entry is a reading of a place: what proves there that a mend holds.
 *
 * @param view the job
 * @param e an entry in force
 * @param place path of the set
 * @returns whether it was measured there
 * @source house rule
 */
export function isReadingOf(view: JobView, e: Entry, place: string): boolean {
  if (e.kind === "form") {
    if (e.form === "voltage-chart" || e.form === "resistance-chart") return readsChart(view, e, place);
    return (place === "line" || isAntenna(view, place)) && (e.form === "safety-in" || e.form === "safety-out");
  }
  if (e.kind === "values")
    return (
      e.fit === undefined &&
      Object.entries(e.values).some(([p, q]) => p.startsWith(`${place}.`) && q.origin === "measured" && e.partOf === undefined)
    );
  if (e.kind === "rows") return e.path.startsWith(`${place}.`);
  if (e.kind === "chassis") return place === "line";
  if (e.kind !== "reading") return false;
  const { reading } = e;
  return (
    place === "set" ||
    `stages.${reading.stage}` === place ||
    `bands.${reading.band ?? ""}` === place ||
    (isStrip(view, place) && reading.as === "if-sweep")
  );
}

/**
 * What is to be read at a place once it was mended, in words.
 *
 * @param view the job
 * @param place path of the set
 * @returns the readings, as a person would be told
 * @source house rule
 */
export function readingsOf(view: JobView, place: string): string {
  const sockets = view.set.tubes.filter((t) => `stages.${t.stage}` === place).map((t) => t.socket);
  if (sockets.length > 0) return `the volts of ${sockets.join(" and ")} on the voltage chart: plate, screen, cathode and grid`;
  if (place === "supplies") return "B+ and the ripple, on the voltage chart or on the sheet on B+";
  if (isAntenna(view, place)) return "touch current with the plug both ways, the antenna terminal among its points, on the safety card";
  if (place === "line") return "insulation and touch current, on the safety card";
  if (isStrip(view, place)) return "a sweep of the IF";
  if (place.startsWith("bands.")) return "the dial's zero beats, or the tracking at two points or more";
  if (place.startsWith("fittings.")) return "the accessory's own volts and setting";
  return "whatever showed the fault, once more";
}

/**
 * The card on which that is written.
 *
 * @param view the job
 * @param place path of the set
 * @returns its id; undefined where no card holds it
 * @source house rule, as isReadingOf has it
 */
export const cardToRead = (view: JobView, place: string): string | undefined =>
  place === "line" || isAntenna(view, place)
    ? "safety-out"
    : place === "supplies" || socketsAt(view, place).length > 0
      ? "voltage-chart"
      : undefined;

/** When the fault was last mended, by place among the entries in force; when it was noticed where nothing was mended. */
const mendedAt = (view: JobView, f: Fault): number => {
  const act = f.acts.filter((a) => a.does === "mend").at(-1) ?? f.acts[0];
  return placeIn(view.inForce, act?.id);
};
const issue = (code: string, read: string, expected: string): Issue => ({ path: "fault", code, read, expected });

/**
 * What stands in the way of an act in a fault's life: proved wants readings of its place that are newer than the mend and in their chart, closed wants
 * it proved, left wants a reason.
 *
 * @param view the job as it stands
 * @param f the fault
 * @param act what a person wants to record
 * @returns nothing where it may be recorded
 * @source house rule
 */
export function actIssues(view: JobView, f: Fault, act: Pick<EntryOf<"fault">, "does" | "words" | "cause">): Issue[] {
  const said = act.words.trim() !== "";
  switch (act.does) {
    case "leave":
      return said ? [] : [issue("no-reason", "", "the reason why it is left (--words)")];
    case "cause":
      return (act.cause ?? "").trim() !== "" ? [] : [issue("no-cause", "", "what it was (--cause), such as cathode resistor high")];
    case "close":
      return f.state === "proved" ? [] : [issue("not-proved", f.state, "a fault that is proved to be mended: fettle fault JOB prove")];
    case "prove":
      return provingIssues(view, f);
    default:
      return [];
  }
}
function provingIssues(view: JobView, f: Fault): Issue[] {
  if (f.acts.length === 0 || !f.acts.some((a) => a.does === "mend" || a.does === "cause"))
    return [issue("not-mended", f.state, "a fault that was mended, or whose cause was found")];
  const { old, isReadAgain } = sinceMended(view, f);
  const still = f.signs.filter((s) => !old.includes(s));
  if (still.length > 0)
    return still.map((s) => issue("still-off", s.says, "within its chart: the fault is still there, or there is another"));
  const lacks = (what: string, read: string): Issue => ({
    ...issue("not-read", read, `${what} read again since it was mended`),
    needs: what,
  });
  if (old.length > 0) return old.map((s) => lacks(s.point, s.says));
  return isReadAgain ? [] : [lacks(readingsOf(view, f.place), "")];
}
/**
 * Where the last reading of a place stands among the entries in force; each place is looked for once.
 *
 * @param view the job
 * @param place path of the set
 * @returns its place among them, from 0; -1 where there is none
 * @source isReadingOf
 */
export const lastReadingAt: (view: JobView, place: string) => number = onceFor(
  (view: JobView, place: string) => {
    const lastOf = (all: readonly Entry[]): number => placeIn(view.inForce, all.findLast((e) => isReadingOf(view, e, place))?.id);
    return Math.max(lastOf(ofKind(view.inForce, "form", "values", "rows", "chassis")), lastOf(lastRead(view.inForce)));
  },
  (place) => place,
);
/** Whether anything was read at a fault's place since it was mended, and its signs that nobody has read again since. */
function sinceMended(view: JobView, f: Fault): { readonly isReadAgain: boolean; readonly old: Fault["signs"] } {
  const at = mendedAt(view, f);
  return {
    isReadAgain: lastReadingAt(view, f.place) > at,
    old: f.signs.filter((s) => placeIn(view.inForce, s.entry) <= at),
  };
}
/**
 * What is still to be read before a fault that was mended is proved: the points that showed it, where readings did.
 *
 * @param view the job
 * @param f the fault
 * @returns in words; empty where everything was read again
 * @source provingIssues, so that what is asked for is what the proof wants
 */
export function stillToRead(view: JobView, f: Fault): string {
  const { isReadAgain, old } = sinceMended(view, f);
  if (old.length > 0) return old.map((s) => s.point).join("; ");
  return isReadAgain ? "" : readingsOf(view, f.place);
}
