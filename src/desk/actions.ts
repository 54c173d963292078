import { answer } from "../ask/answer";
import type { Answer, Ask } from "../ask/answered";
import type { AnySheet } from "../ask/contract";
import { fedFromLine } from "../job/chassis-proof";
import type { JobDocument } from "../job/document";
import { fromElsewhere } from "../job/from-elsewhere";
import { onceOf } from "../job/known-answers";
import type { Unreadable } from "../job/read-job";
import { subjectFirst } from "../job/rollups/pointed";
import { benchOf, type JobView, onceFor, subjectsIn, viewOf } from "../job/view";
import type { Stamp } from "../job/works";
import { emptyBench } from "../set/bench";
import type { SetDescription } from "../set/describe";
import { patternById, patterns } from "../set/patterns/kinds";
import { sameKind } from "../set/same-kind";
import { sheetById, sheets } from "../sheets/index";
import { writeStored } from "../store/archive";
import { type JobStore, StoreError } from "../store/store";
import { InputError, orThrow } from "../units/issue";
import { idsOf, oneOf } from "../units/nearest";
import type { Errands } from "./errand";

/** What command line and server do alike, over one store. */
export interface Desk {
  readonly store: JobStore;
  readonly stamp: Stamp;
  /** who does what may take long or much */
  readonly errands: Errands;
  /** id of the last entry of the job that the person had before them, where a page says so */
  readonly seen?: string;
  /** when it came in, where a bench held it: the stamp then tells when it was done */
  readonly received?: string;
  /** takes a word that the person should have beside the answer */
  readonly notice?: (said: string) => void;
}
/** In a line: how much of a job can't be read and is left out. */
export const sayUnreadable = (name: string, unreadable: readonly { readonly id: string }[]): string =>
  unreadable.length === 0
    ? ""
    : `${unreadable.length === 1 ? "One entry" : `${unreadable.length} entries`} of "${name}" can't be read and ${unreadable.length === 1 ? "is" : "are"} left out; all else is here. fettle show "${name}" --entries names ${unreadable.length === 1 ? "it" : "them"}, and an export keeps ${unreadable.length === 1 ? "it" : "them"}.`;

/** Says beside the answer how much of a job can't be read. */
export function noticeUnreadable(desk: Desk, name: string, unreadable: readonly { readonly id: string }[]): void {
  const said = sayUnreadable(name, unreadable);
  if (said !== "") desk.notice?.(said);
}
/** A job as the store gave it folded once: who asks for one that is as it was gets what was folded before. */
const viewOnce = onceFor((document: JobDocument) => viewOf(document));
export async function openJob(desk: Desk, name: string): Promise<JobView> {
  const found = await desk.store.load(name);
  if (!found) throw await noJob(desk, name);
  noticeUnreadable(desk, name, found.unreadable);
  return viewOnce(found.document);
}
/** The nearest name is looked for among so many jobs: more than a shop keeps in a lifetime. */
const mostLookedThrough = 10_000;
export async function noJob(desk: Desk, name: string): Promise<InputError> {
  const known = (await desk.store.list("", mostLookedThrough)).jobs.map((j) => j.name);
  const expected = known.length > 0 ? oneOf(name, known, "jobs") : "a job: make one with `fettle new NAME --pattern ID`";
  return new InputError([{ path: "job", code: "no-job", read: name, expected }]);
}

export async function newJob(desk: Desk, name: string, set: SetDescription): Promise<void> {
  checkName(name);
  await desk.store.create({ id: desk.stamp.newId(), name, created: desk.stamp.at, set, entries: [] });
}

export function patternNamed(id: string): SetDescription {
  const set = patternById(id);
  const known = patterns.map((p) => p.pattern);
  if (!set) throw new InputError([{ path: "--pattern", code: "no-pattern", read: id, expected: oneOf(id, known, "patterns") }]);
  return set;
}

/**
 * Copies a job under another name: all of it, or the set alone as a start for another one of its kind. A copy is another set or another claim: what
 * it takes along says where it is from, and proves nothing there.
 *
 * @param desk store and stamp
 * @param from name of the job
 * @param name name of the copy
 * @param setAlone leave every entry behind; what was measured on the first set is only assumed of the second
 */
export async function copyJob(desk: Desk, from: string, name: string, setAlone: boolean): Promise<void> {
  const view = await openJob(desk, from);
  checkName(name);
  const id = desk.stamp.newId();
  if (setAlone) {
    // a set once said to be fed from the line begins as one: the copy's description takes no doubt away
    const fed = fedFromLine(view.ground);
    const set = fed === undefined ? view.set : { ...view.set, supplies: { ...view.set.supplies, rectifier: fed } };
    return void (await desk.store.create({ id, name, created: desk.stamp.at, set: sameKind(set, from), entries: [] }));
  }
  const read = { document: view.document, unreadable: (await desk.store.load(from))?.unreadable ?? [] };
  const { document, unreadable } = fromElsewhere(read, { at: desk.stamp.at, by: desk.stamp.who, copyOf: from });
  const { format: _f, version: _v, id: _i, name: _n, created, set, entries, ...extra } = document;
  await desk.store.create({ id, name, created, set, entries, extra, unreadable }, await desk.store.files(from));
}

export interface TakenIn {
  readonly name: string;
  readonly entriesCount: number;
  readonly filesCount: number;
  /** entries that can't be read or could not stand in this set: kept aside, never applied */
  readonly unreadable: readonly Unreadable[];
}
/**
 * Takes a job in from its zip. All of it says that it was brought in from elsewhere, and proves nothing here.
 *
 * @param desk store and stamp
 * @param bytes the zip
 * @param file what it is called in an error
 * @param naming another name for it; `free` takes the next free one instead of refusing a name that is taken
 * @returns name, entries and files taken in, and what of it is kept aside
 */
export async function takeIn(
  desk: Desk,
  bytes: Uint8Array,
  file: string,
  naming: { readonly name?: string | undefined; readonly free?: boolean } = {},
): Promise<TakenIn> {
  const broughtIn = { at: desk.stamp.at, by: desk.stamp.who };
  const { files, document, unreadable } = await desk.errands.run("unpack", { bytes, name: file, broughtIn });
  const { format: _f, version: _v, id: own, name: said, created, set, entries, ...extra } = document;
  const { jobs } = await desk.store.list();
  const taken = new Set(jobs.map((j) => j.name));
  let name = naming.name ?? said;
  if (naming.free) for (let i = 2; taken.has(name); i++) name = `${said} ${i}`;
  checkName(name);
  const known = jobs.find((j) => j.id === own);
  const again = known !== undefined || name !== said;
  if (known && known.name !== name && name === said && !naming.free)
    throw new InputError([
      {
        path: "name",
        code: "known-job",
        read: name,
        expected: `another name for it (--name): this same job is already in the store, as "${known.name}"`,
      },
    ]);
  await desk.store.create({ id: again ? desk.stamp.newId() : own, name, created, set, entries, extra, unreadable }, files);
  return { name, entriesCount: entries.length, filesCount: files.length, unreadable };
}

/** A job as one zip, whatever of it can be read: what can't goes along as it is stored. */
export async function exported(
  desk: Desk,
  name: string,
): Promise<{ readonly zip: Uint8Array; readonly unreadable: readonly Unreadable[] }> {
  const files = await desk.store.files(name);
  try {
    const found = await desk.store.load(name);
    if (found) {
      const { document, unreadable } = found;
      return { zip: await desk.errands.run("pack", { document, files, unreadable }), unreadable };
    }
  } catch (e) {
    const stored = e instanceof StoreError && e.code === "unreadable" ? await desk.store.stored(name) : undefined;
    if (!stored) throw e;
    return { zip: writeStored(stored, files), unreadable: [] };
  }
  throw await noJob(desk, name);
}

export function checkName(name: string): void {
  if (!/^[\p{L}\p{N}][\p{L}\p{N} .,_'’()&+-]{0,79}$/u.test(name))
    throw new InputError([
      {
        path: "name",
        code: "bad-name",
        read: name,
        expected: "a name that begins with a letter or digit, then letters, digits, spaces and . , _ ' ( ) & + -, at most 80",
      },
    ]);
}

/** What a set may lack, as it is called at the bench. */
const stageSaid: Readonly<Record<string, string>> = { bfo: "a BFO", rf: "an RF stage", "if-tube": "an IF tube", audio: "an audio stage" };
const lackingSaid: Readonly<Record<string, string>> = {
  "marker-generator": "a marker generator",
  "q-multiplier": "a Q multiplier",
  fitting: "an accessory",
};

/** Which subject a sheet is asked about: as said, else the one that the thread points at. */
export function subjectFor(sheet: AnySheet, view: JobView | undefined, at: string | undefined): string {
  if (!view) return at ?? "";
  const known = subjectsIn(view, sheet);
  if (known.length === 0 && sheet.subject !== "set")
    throw new InputError([
      {
        path: "sheet",
        code: "no-subject",
        read: sheet.id,
        expected: `a set with ${sheet.stageKinds ? sheet.stageKinds.map((k) => stageSaid[k] ?? `a ${k}`).join(" or ") : (lackingSaid[sheet.fitting ?? sheet.subject] ?? `a ${sheet.fitting ?? sheet.subject}`)}: this one has none`,
      },
    ]);
  if (at === undefined) return subjectFirst(view, sheet) ?? "";
  if (known.includes(at) || (sheet.subject === "band" && known.includes(at.replace(/:.*$/, "")))) return at;
  throw new InputError([
    {
      path: "--at",
      code: "no-subject",
      read: at,
      expected:
        sheet.subject === "set"
          ? "nothing: this question is about the whole set"
          : known.length > 0
            ? oneOf(at, known)
            : `a ${sheet.subject} of this set`,
    },
  ]);
}

export function sheetNamed(id: string): AnySheet {
  const s = sheetById(id);
  if (!s)
    throw new InputError([
      {
        path: "sheet",
        code: "no-sheet",
        read: id,
        expected: oneOf(id, idsOf(sheets)),
      },
    ]);
  return s;
}

/** Asks a sheet about a job, a pattern, or nothing but its defaults. */
export function ask(sheet: AnySheet, view: JobView | undefined, at: string | undefined, how: Ask): Answer {
  const subject = subjectFor(sheet, view, at);
  if (!view) return orThrow(answer(sheet, emptyBench, how));
  const { progress: _, ...said } = how;
  return orThrow(onceOf(view, [sheet.id, subject, said], () => answer(sheet, benchOf(view, subject), how)));
}
