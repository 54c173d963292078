import { printValue } from "../units/print";
import { writingOn } from "./cards";
import type { Entry, EntryOf } from "./document";
import type { JobView } from "./view";

type Sitting = EntryOf<"sitting">;
type Waiting = EntryOf<"waiting">;
/** A session's meter and line are carried on for so long, h. Common practice, no source. */
const carriedHours = 12;
const hoursBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / 3.6e6;

/**
 * What holds for the readings of now: the last sitting, as long as it is of the same session.
 *
 * @param view the job
 * @param now ISO 8601
 * @returns the sitting; undefined where none was recorded in the last twelve hours
 * @source common practice, no source
 */
export function sittingAt(view: JobView, now: string): Sitting | undefined {
  const last = view.inForce.filter((e) => e.kind === "sitting").at(-1);
  return last && hoursBetween(last.at, now) <= carriedHours && hoursBetween(last.at, now) >= 0 ? last : undefined;
}
/**
 * Who made an entry: the initials of the sitting that it fell in, else whoever was signed in.
 * @source house format
 */
export function signerOf(view: JobView, e: Entry): string {
  const before = view.inForce.slice(0, view.inForce.indexOf(e) + 1).filter((x) => x.kind === "sitting");
  const last = before.filter((x) => x.who === e.who).at(-1);
  return last && last.initials !== "" && hoursBetween(last.at, e.at) <= carriedHours ? last.initials : e.who;
}
/**
 * How the set was left last, and whether anything was recorded since.
 * @source house format
 */
export function standingOf(view: JobView): { readonly entry: EntryOf<"standing">; readonly since: number } | undefined {
  const at = view.inForce.map((e) => e.kind).lastIndexOf("standing");
  const entry = view.inForce[at];
  return entry?.kind === "standing" ? { entry, since: view.inForce.length - 1 - at } : undefined;
}
/**
 * What is still waited for: a part that has to come, a warm-up, a soak. What has had its time is over.
 *
 * @param view the job
 * @param now ISO 8601
 * @returns in the order in which it began
 * @source house format
 */
export function waitingFor(view: JobView, now: string): readonly Waiting[] {
  const all = view.inForce.filter((e) => e.kind === "waiting");
  const ended = new Set(all.flatMap((w) => (w.ends ? [w.ends] : [])));
  return all.filter((w) => !w.ends && !ended.has(w.id) && (w.until === undefined || Date.parse(w.until) > Date.parse(now)));
}

/** Cards whose readings rest on a meter and a line that stand on the card itself. */
const carriedOn: Readonly<Record<string, readonly string[]>> = { "voltage-chart": ["Meter", "Line volts"], "resistance-chart": ["Meter"] };
/**
 * An entry with what the sitting says of its readings, where the person has not written it on the card since sitting down: asked once, carried on.
 *
 * @param view the job as it stands
 * @param e an entry that is to be recorded
 * @returns the same, with meter and line of the sitting where readings are written on a chart
 * @source house format
 */
export function carriedOnto(view: JobView, e: Entry): Entry {
  const fields = e.kind === "form" ? carriedOn[e.form] : undefined;
  const sitting = fields && sittingAt(view, e.at);
  if (e.kind !== "form" || !fields || !sitting || !Object.keys(e.fields).some((f) => /: Measured /.test(f))) return e;
  const satDown = view.inForce.indexOf(sitting);
  const own: Record<string, string> = {
    Meter: sitting.meter,
    "Line volts": sitting.line ? printValue(sitting.line.value, "voltage") : "",
  };
  const written = writingOn(view, e.form);
  const wanted = fields.filter((f) => {
    const known = written.get(f);
    const since = known ? view.inForce.findIndex((x) => x.id === known.entry) > satDown : false;
    return own[f] !== "" && !(f in e.fields) && !since && known?.text !== own[f];
  });
  return { ...e, fields: { ...Object.fromEntries(wanted.map((f) => [f, own[f]])), ...e.fields } };
}
