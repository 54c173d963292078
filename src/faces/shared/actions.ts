import { benchOf, type JobView, subjectsIn, viewOf } from "../../job/view";
import { planWork, type Stamp, type WorkPlan } from "../../job/works";
import { emptyBench } from "../../set/bench";
import type { SetDescription } from "../../set/describe";
import { patternById, patterns } from "../../set/patterns/kinds";
import { sameKind } from "../../set/same-kind";
import { type Answer, type Ask, answer } from "../../sheets/answer";
import type { AnySheet } from "../../sheets/contract";
import { sheetById, sheets } from "../../sheets/index";
import type { JobStore } from "../../store/store";
import { InputError, orThrow } from "../../units/issue";
import type { Errands } from "./errand";

/** What command line and server do alike, over one store. */
export interface Desk {
  readonly store: JobStore;
  readonly stamp: Stamp;
  /** who does what may take long or much */
  readonly errands: Errands;
}

export async function openJob(desk: Desk, name: string): Promise<JobView> {
  const found = await desk.store.load(name);
  if (found) return viewOf(found.document);
  const known = (await desk.store.list("", 20)).jobs.map((j) => j.name);
  throw new InputError([
    {
      path: "job",
      code: "no-job",
      read: name,
      expected: known.length > 0 ? `one of the jobs ${known.join(", ")}` : "a job: make one with `fettle new NAME --pattern ID`",
    },
  ]);
}

export async function newJob(desk: Desk, name: string, set: SetDescription): Promise<void> {
  checkName(name);
  await desk.store.create({ id: desk.stamp.newId(), name, created: desk.stamp.at, set, entries: [] });
}

export function patternNamed(id: string): SetDescription {
  const set = patternById(id);
  if (!set)
    throw new InputError([
      { path: "--pattern", code: "no-pattern", read: id, expected: `one of ${patterns.map((p) => p.pattern).join(", ")}` },
    ]);
  return set;
}

/**
 * Copies a job under another name: all of it, or the set alone as a start for another one of its kind.
 *
 * @param desk store and stamp
 * @param from name of the job
 * @param name name of the copy
 * @param setAlone leave every entry behind; what was measured on the first set is only assumed of the second
 */
export async function copyJob(desk: Desk, from: string, name: string, setAlone: boolean): Promise<void> {
  const view = await openJob(desk, from);
  checkName(name);
  const { format: _f, version: _v, id: _i, name: _n, created, set, entries, ...extra } = view.document;
  const id = desk.stamp.newId();
  if (setAlone) await desk.store.create({ id, name, created: desk.stamp.at, set: sameKind(view.set, from), entries: [] });
  else await desk.store.create({ id, name, created, set, entries, extra }, await desk.store.files(from));
}

/**
 * Takes a job in from its zip.
 *
 * @param desk store and stamp
 * @param bytes the zip
 * @param file what it is called in an error
 * @param naming another name for it; `free` takes the next free one instead of refusing a name that is taken
 * @returns name, entries and files taken in
 */
export async function takeIn(
  desk: Desk,
  bytes: Uint8Array,
  file: string,
  naming: { readonly name?: string | undefined; readonly free?: boolean } = {},
): Promise<{ readonly name: string; readonly entriesCount: number; readonly filesCount: number }> {
  const { document, files } = await desk.errands.run("unpack", { bytes, name: file });
  const { format: _f, version: _v, id, name: said, created, set, entries, ...extra } = document;
  let name = naming.name ?? said;
  if (naming.free) {
    const taken = new Set((await desk.store.list(said)).jobs.map((j) => j.name));
    for (let i = 2; taken.has(name); i++) name = `${said} ${i}`;
  }
  checkName(name);
  await desk.store.create({ id: name === said ? id : desk.stamp.newId(), name, created, set, entries, extra }, files);
  return { name, entriesCount: entries.length, filesCount: files.length };
}

export function checkName(name: string): void {
  if (!/^[\p{L}\p{N}][\p{L}\p{N} .,_'’()&+-]{0,79}$/u.test(name))
    throw new InputError([
      {
        path: "name",
        code: "bad-name",
        read: name,
        expected: "a name that begins with a letter or figure, then letters, figures, spaces and . , _ ' ( ) & + -, at most 80",
      },
    ]);
}

/** Which subject a sheet is asked about: as said, else the first of its kind. */
export function subjectFor(sheet: AnySheet, view: JobView | undefined, at: string | undefined): string {
  if (!view) return at ?? "";
  const known = subjectsIn(view, sheet);
  if (known.length === 0 && sheet.subject !== "set")
    throw new InputError([
      {
        path: "sheet",
        code: "no-subject",
        read: sheet.id,
        expected: `a set with ${sheet.stageKinds ? `a ${sheet.stageKinds.join(" or ")}` : `a ${sheet.fitting ?? sheet.subject}`}: this one has none`,
      },
    ]);
  if (at === undefined) return known[0] ?? "";
  if (known.includes(at) || (sheet.subject === "band" && known.includes(at.replace(/:.*$/, "")))) return at;
  throw new InputError([
    {
      path: "--at",
      code: "no-subject",
      read: at,
      expected: known.length > 0 ? `one of ${known.join(", ")}` : `a ${sheet.subject} of this set`,
    },
  ]);
}

export function sheetNamed(id: string): AnySheet {
  const s = sheetById(id);
  if (!s) throw new InputError([{ path: "sheet", code: "no-sheet", read: id, expected: `one of ${sheets.map((x) => x.id).join(", ")}` }]);
  return s;
}

/** Asks a sheet about a job, a pattern, or nothing but its defaults. */
export function ask(sheet: AnySheet, view: JobView | undefined, at: string | undefined, how: Ask): Answer {
  const subject = subjectFor(sheet, view, at);
  return orThrow(answer(sheet, view ? benchOf(view, subject) : emptyBench, how));
}

export function planned(view: JobView, work: string, subject: string, note: string, stamp: Stamp): WorkPlan {
  return orThrow(planWork(view, work, subject, note, stamp));
}
