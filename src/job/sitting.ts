import { onceFor } from "../numerics/once";
import { electrodeOf, electrodes } from "../sheets/inputs/chart";
import { meterKindFrom, meterShareOf } from "../standards/meters";
import type { ReadWith } from "../units/bare";
import { momentInWords } from "../units/day";
import { bad, good, type Read } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { printValue } from "../units/print";
import { writingOn } from "./cards";
import type { Entry, EntryOf } from "./document";
import { ofKind, placeIn } from "./place-in";
import type { JobView } from "./view";

type Sitting = EntryOf<"sitting">;
export type Waiting = EntryOf<"waiting">;
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
  const last = ofKind(view.inForce, "sitting").at(-1);
  return last && hoursBetween(last.at, now) <= carriedHours && hoursBetween(last.at, now) >= 0 ? last : undefined;
}
/**
 * Warm or cold at a reading: as it is said of it, else as the sitting has it; a set that is read at all is warm where nobody has said otherwise.
 *
 * @param view the job as it stands
 * @param now ISO 8601, when it is read
 * @param said of the reading itself
 * @source common practice, no source
 */
export const thermalAt = (view: JobView, now: string, said?: Sitting["thermal"]): NonNullable<Sitting["thermal"]> =>
  said ?? sittingAt(view, now)?.thermal ?? "warm";
/**
 * What readings of now are made with, by the sitting's meter.
 *
 * @param view the job as it stands
 * @param now ISO 8601
 * @returns its kind and what it is good for; undefined where the sitting names none that is known
 * @source meters.ts
 */
export function meterAt(view: JobView, now: string): ReadWith | undefined {
  const name = meterKindFrom(sittingAt(view, now)?.meter ?? "");
  return name === undefined ? undefined : { name: `the sitting's meter, ${name}`, share: meterShareOf(name) };
}
/** Every sitting of each person, in order. */
const sittingsBy = onceFor((inForce: readonly Entry[]) => {
  const out = new Map<string, Sitting[]>();
  for (const e of ofKind(inForce, "sitting")) out.set(e.who, [...(out.get(e.who) ?? []), e]);
  return out;
});
/**
 * The sitting that an entry fell in: of the same person, no longer ago than a session lasts.
 *
 * @param view the job
 * @param e an entry in force
 * @returns the sitting; undefined where nobody had sat down
 * @source house format
 */
export function sittingOf(view: JobView, e: Entry): Sitting | undefined {
  const place = placeIn(view.inForce, e.id);
  const last = sittingsBy(view.inForce)
    .get(e.who)
    ?.findLast((s) => placeIn(view.inForce, s.id) <= place);
  return last && hoursBetween(last.at, e.at) <= carriedHours ? last : undefined;
}
/**
 * Who made an entry: the initials of the sitting that it fell in, else whoever was signed in.
 * @source house format
 */
export const signerOf = (view: JobView, e: Entry): string => sittingOf(view, e)?.initials || e.who;
/**
 * How the set was left last, and whether anything was recorded since.
 * @source house format
 */
export function standingOf(view: JobView): { readonly entry: EntryOf<"standing">; readonly since: number } | undefined {
  const entry = ofKind(view.inForce, "standing").at(-1);
  return entry && { entry, since: view.inForce.length - 1 - placeIn(view.inForce, entry.id) };
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
  const all = ofKind(view.inForce, "waiting");
  const ended = new Set(all.flatMap((w) => (w.ends ? [w.ends] : [])));
  return all.filter((w) => !w.ends && !ended.has(w.id) && (w.until === undefined || Date.parse(w.until) > Date.parse(now)));
}

/**
 * What was waited for until a time that is over, and nobody has said that it came.
 *
 * @param view the job
 * @param now ISO 8601
 * @returns in the order in which it began
 * @source house format
 */
export function overdueWaits(view: JobView, now: string): readonly Waiting[] {
  const all = ofKind(view.inForce, "waiting");
  const ended = new Set(all.flatMap((w) => (w.ends ? [w.ends] : [])));
  return all.filter((w) => !w.ends && !ended.has(w.id) && w.until !== undefined && Date.parse(w.until) <= Date.parse(now));
}
/**
 * Until when something is waited for, in words: what has had its time was due.
 *
 * @param w what is waited for
 * @param now ISO 8601
 * @returns such as `, until 3 December 2026, 12:00`; empty where no time was said
 * @source house format
 */
export const untilSaid = ({ until }: Waiting, now: string): string =>
  until === undefined ? "" : `, ${Date.parse(until) <= Date.parse(now) ? "was due" : "until"} ${momentInWords(until)}`;

/**
 * How long nobody has sat at a set, where that is longer than what was said of a session holds.
 *
 * @param view the job
 * @param now ISO 8601
 * @returns hours since the last entry; undefined while the session goes on, and for a job without entries
 * @source common practice, no source
 */
export function hoursAway(view: JobView, now: string): number | undefined {
  const last = view.inForce.at(-1);
  const hours = last ? hoursBetween(last.at, now) : 0;
  return hours > carriedHours ? hours : undefined;
}

/** What a person says on sitting down. */
interface SittingSaid {
  readonly initials: string;
  readonly meter: string;
  readonly method: string;
  readonly gridMeter?: string | undefined;
  readonly thermal?: Sitting["thermal"] | undefined;
  readonly line?: Sitting["line"] | undefined;
}
/**
 * A sitting as it is recorded: who measures and with what stay from one session to the next where nothing else is said; method, warm or cold and the
 * line are of the day and are said anew.
 *
 * @param view the job as it stands
 * @param who is signed in
 * @param said what the person says
 * @returns all of the entry but its head; an issue where nobody has ever said who measures
 * @source house format
 */
export function satDown(view: JobView, who: string, said: SittingSaid): Read<SittingSaid> {
  const before = ofKind(view.inForce, "sitting").findLast((e) => e.who === who);
  const initials = said.initials.trim() || (before?.initials ?? "");
  if (initials === "") return bad("--initials", "not-said", "", "who measures, such as JM");
  const gridMeter = said.gridMeter || before?.gridMeter;
  return good({
    initials,
    meter: said.meter || (before?.meter ?? ""),
    method: said.method,
    ...(gridMeter ? { gridMeter } : {}),
    ...(said.thermal ? { thermal: said.thermal } : {}),
    ...(said.line ? { line: said.line } : {}),
  });
}

/** Cards whose readings rest on a meter and a line that stand on the card itself. */
const carriedOn: Readonly<Record<string, readonly string[]>> = { "voltage-chart": ["Meter", "Line volts"], "resistance-chart": ["Meter"] };
type Fields = Readonly<Record<string, string>>;
/** Ranges that the words for a meter name: those behind the word. */
const rangesIn = (meter: string): readonly number[] =>
  (/ranges?\b(.*)$/i.exec(meter)?.[1].match(/\d+(?:\.\d+)?/g) ?? []).map(Number).sort((a, b) => a - b);

/**
 * What each row of the voltage chart was read with, by the sitting: the meter for grids, and of the sitting's own meter the lowest range that holds the
 * reading. What the row itself says since keeps its place.
 */
function rowsCarried(view: JobView, fields: Fields, sitting: Sitting): Fields {
  const ranges = rangesIn(sitting.meter);
  const written = writingOn(view, "voltage-chart");
  const satDownAt = placeIn(view.inForce, sitting.id);
  const stands = (field: string): string => fields[field] ?? written.get(field)?.text ?? "";
  const isSince = (field: string): boolean => placeIn(view.inForce, written.get(field)?.entry) > satDownAt;
  const out: Record<string, string> = {};
  for (const [field, text] of Object.entries(fields)) {
    const row = /^(row \d+): Measured V$/.exec(field)?.[1];
    const typed = text.trim();
    if (row === undefined || typed === "") continue;
    const [meter, range] = [`${row}: Meter`, `${row}: Range V`];
    if (stands(meter) === "" && sitting.gridMeter !== undefined && electrodes[electrodeOf(stands(`${row}: Electrode`))] === "grid")
      out[meter] = sitting.gridMeter;
    const volts = parseQuantity(/^[-+]?[\d.,]+$/.test(typed) ? `${typed} V` : typed, "voltage", field);
    if (!volts.ok || range in fields || stands("Meter") !== sitting.meter || stands(meter) !== "" || meter in out) continue;
    // nobody reads a needle at its stop
    const holds = (r: number): boolean => r > Math.abs(volts.value.value);
    const lowest = ranges.find(holds);
    const kept = isSince(range) && holds(Number(stands(range)));
    if (lowest !== undefined && !kept && stands(range) !== String(lowest)) out[range] = String(lowest);
  }
  return out;
}
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
  const satDown = placeIn(view.inForce, sitting.id);
  const own: Record<string, string> = {
    Meter: sitting.meter,
    "Line volts": sitting.line ? printValue(sitting.line.value, "voltage") : "",
  };
  const written = writingOn(view, e.form);
  const wanted = fields.filter((f) => {
    const known = written.get(f);
    const since = known ? placeIn(view.inForce, known.entry) > satDown : false;
    return own[f] !== "" && !(f in e.fields) && !since && known?.text !== own[f];
  });
  const whole: Fields = { ...Object.fromEntries(wanted.map((f) => [f, own[f]])), ...e.fields };
  return { ...e, fields: e.form === "voltage-chart" ? { ...rowsCarried(view, whole, sitting), ...whole } : whole };
}
