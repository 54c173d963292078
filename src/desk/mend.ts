import type { Entry, EntryOf } from "../job/document";
import { faultNamed, noticeOf } from "../job/faults/faults";
import { rowsInDoubt } from "../job/mended-rows";
import { decides, followsAt, type PartKind, partKindById, partKinds, partPlaceOf, workOf } from "../job/mending/kinds";
import { isPlace, placesOf } from "../job/places";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { supplies } from "../set/addresses/power";
import { safety } from "../set/addresses/safety";
import { withBareDoubt } from "../units/bare";
import { InputError, type Issue } from "../units/issue";
import { idsOf, oneOf } from "../units/nearest";
import { parseQuantity } from "../units/parse";
import type { Quantity } from "../units/quantity";
import { type Planned, planned } from "./work";

/** One part as a person says it: its value as marked, as measured, the volts that it bears, how it lies. */
export interface PartSaid {
  readonly is: string;
  readonly measured: string;
  readonly rated: string;
}
/** "This part went, that one came in", as a person says it. */
export interface MendSaid {
  readonly part: string;
  readonly place: string;
  /** its name on the diagram, such as C14 */
  readonly label: string;
  readonly out: PartSaid;
  /** nothing came in where this is empty */
  readonly came: PartSaid;
  readonly dress: string;
  /** hash of a photograph that is kept with the job */
  readonly photo?: string | undefined;
  readonly fault: string;
  readonly note: string;
  /** what else it changed of the record, by path */
  readonly now: Readonly<Record<string, string>>;
}
export interface Mending extends Planned {
  readonly title: string;
  readonly work: string;
}
/** Where nobody could read a marking. */
const unmarked = /^(?:\?|unknown|unmarked|not marked|none|illegible)$/i;
/** Capacitors that no B+ stands at, or that go by their safety class. */
const withoutRating = new Set(["tuned-capacitor", "line-capacitor", "antenna-capacitor"]);
const issue = (path: string, code: string, read: string, expected: string): Issue => ({ path, code, read, expected });
function quantityOf(
  text: string,
  kind: PartKind,
  path: string,
  how: Pick<Quantity, "origin" | "source">,
  issues: Issue[],
): Quantity | undefined {
  if (text === "" || kind.value === undefined || unmarked.test(text.trim())) return undefined;
  const r = parseQuantity(text, kind.value, path);
  if (!r.ok) {
    issues.push(...r.issues);
    return undefined;
  }
  if (r.value.value <= 0) issues.push(issue(path, "not-positive", text, "more than zero"));
  return withBareDoubt({ ...r.value, ...how }, { dimension: kind.value }, { text });
}
function partOf(kind: PartKind, side: "out" | "in", said: PartSaid, dress: string, issues: Issue[]): EntryOf<"part">["out"] {
  const value = quantityOf(said.is, kind, `--${side}`, { origin: "stated", source: "its marking" }, issues);
  const measured = quantityOf(said.measured, kind, `--${side}-measured`, { origin: "measured", source: "measured out of the set" }, issues);
  const volts = said.rated === "" ? undefined : parseQuantity(said.rated, "voltage", `--${side}-rated`);
  if (volts && !volts.ok) issues.push(...volts.issues);
  return {
    kind: kind.id,
    words: kind.value === undefined || value === undefined ? said.is : "",
    dress,
    ...(value ? { value } : {}),
    ...(measured ? { measured } : {}),
    ...(volts?.ok ? { rated: { ...volts.value, origin: "stated" as const, source: "its marking" } } : {}),
  };
}

/** The tube that a mend is of: the one named, or the only one that stands at the place. */
function tubeAt(view: JobView, said: MendSaid, issues: Issue[]) {
  const here = view.set.tubes.filter((t) => `stages.${t.stage}` === said.place);
  const named = here.find((t) => t.socket.toLowerCase() === said.label.trim().toLowerCase());
  if (named ?? here.length === 1) return named ?? here[0];
  const sockets = here.map((t) => t.socket);
  issues.push(issue("--label", "which-tube", said.label, sockets.length > 0 ? `one of ${sockets.join(", ")}` : "a stage that has a tube"));
  return undefined;
}

/** A part that came in, with how it was said. */
interface Fitted {
  readonly kind: PartKind;
  readonly said: MendSaid;
  readonly came: EntryOf<"part">["came"];
}
/** What follows a part by itself: the value of its address, the type in its socket. */
function followers(view: JobView, { kind, said, came }: Fitted, stamp: Stamp, issues: Issue[]): Entry[] {
  const head = () => ({ id: stamp.newId(), at: stamp.at, who: stamp.who });
  const why = `as it is now: ${kind.title.toLowerCase()} replaced`;
  const path = followsAt(kind, said.place);
  const value = came?.measured ?? came?.value;
  if (path && value) return [{ ...head(), kind: "values", values: { [path]: { ...value, source: `${value.source}, as fitted` } }, why }];
  if (kind.id !== "tube") return [];
  const tube = tubeAt(view, said, issues);
  const type = said.came.is.trim().toUpperCase();
  if (!tube || type === "" || tube.type.toUpperCase() === type) return [];
  return [{ ...head(), kind: "described", list: "tubes", member: tube.socket, as: { ...tube, type }, why }];
}

function kindNamed(said: MendSaid): PartKind {
  const kind = partKindById(said.part);
  if (!kind) throw new InputError([issue("part", "no-part", said.part, oneOf(said.part, idsOf(partKinds)))]);
  return kind;
}
/** A place of the set at which such a part can stand; where only one sort of place can have it, that one. */
function placeFor(view: JobView, kind: PartKind, said: MendSaid): string {
  const alone = kind.where.length === 1 && ["supplies", "line", "strip"].includes(kind.where[0]) ? kind.where[0] : undefined;
  const place = said.place === "" && alone ? alone : said.place;
  const sort = partPlaceOf(place);
  if (isPlace(view.set, place) && sort && kind.where.includes(sort)) return place;
  const fit = placesOf(view.set).filter((p) => kind.where.some((w) => w === partPlaceOf(p)));
  throw new InputError([issue("--at", "no-place", said.place, oneOf(said.place, fit))]);
}

/**
 * Mending as one act: the part that went and the one that came in, the facts and values that follow it, the work with what it makes due again, and the
 * fault's own step; all taken back together.
 *
 * @param view the job as it stands
 * @param given what a person says
 * @param stamp who, when, ids
 * @returns what would be recorded, what becomes due, and what of the record must be said yet
 * @throws {InputError} that names each field that can't be read
 */
export function mending(view: JobView, given: MendSaid, stamp: Stamp): Mending {
  const kind = kindNamed(given);
  const said = { ...given, place: placeFor(view, kind, given) };
  const issues: Issue[] = [];
  const nothingCame = [said.came.is, said.came.measured, said.came.rated].every((t) => t === "");
  const out = partOf(kind, "out", said.out, "", issues);
  const came = nothingCame
    ? undefined
    : { ...partOf(kind, "in", said.came, said.dress, issues), ...(said.photo ? { photo: said.photo } : {}) };
  if (kind.rated && came && kind.value === "capacitance" && !came.rated && !withoutRating.has(kind.id))
    issues.push(issue("--in-rated", "not-said", "", "the new part's voltage rating, such as 630 V: it has B+ on it"));
  const also = followers(view, { kind, said, came }, stamp, issues);
  const fault = said.fault === "" ? undefined : faultNamed(view, said.fault);
  if (fault && !fault.ok) issues.push(...fault.issues);
  const doubt = rowsInDoubt(view, { part: kind.id, place: said.place, label: said.label, out });
  if (doubt.length > 0) issues.push(issue("--label", "which-part", said.label, `which one of the survey it was: ${doubt.join(", ")}`));
  if (issues.length > 0) throw new InputError(issues);
  const bypass = kind.id === "line-capacitor" && came?.value ? { [safety.bypass.address]: said.came.is } : {};
  const now = {
    ...decides(kind, nothingCame ? undefined : `${said.came.is} ${said.came.rated}`, supplies.rectifierType.options),
    ...bypass,
    ...said.now,
  };
  const work = workOf(kind, view.set, said.place);
  const note = said.note || sayMend(kind, said);
  const plan = planned(view, { work, subject: said.place, note, now }, stamp, also);
  const act = plan.entries.find((e) => e.kind === "work");
  if (!act) return { ...plan, title: kind.title, work };
  const head = () => ({ id: stamp.newId(), at: stamp.at, who: stamp.who, partOf: act.id });
  const known = fault?.ok ? fault.value : undefined;
  const part: Entry = {
    ...head(),
    kind: "part",
    part: kind.id,
    place: said.place,
    label: said.label,
    out,
    ...(came ? { came } : {}),
    ...(known ? { fault: known.id } : {}),
  };
  const mended: Entry[] = known
    ? [
        ...noticeOf(known, head),
        { ...head(), kind: "fault", fault: known.id, does: "mend", place: known.place, words: note, rests: [part.id, act.id] },
      ]
    : [];
  return { ...plan, entries: [...plan.entries, part, ...mended], title: kind.title, work };
}
const sayMend = (kind: PartKind, said: MendSaid): string =>
  [
    `${kind.title}${said.label ? ` ${said.label}` : ""}`,
    said.out.is ? `: ${said.out.is} out` : "",
    said.came.is
      ? `${said.out.is ? "," : ":"} ${said.came.is}${said.came.rated ? ` ${said.came.rated}` : ""} in`
      : ", nothing in its place",
  ].join("");
