import { isSafeToJoin } from "../ask/chassis";
import type { HistoryName } from "../set/addresses/history";
import type { SetDescription } from "../set/describe";
import { settleGuess } from "../set/guesses";
import { loosen } from "../set/history";
import { putMember } from "../set/members";
import { putValue } from "../set/paths";
import { dayInWords } from "../units/day";
import type { Estimate } from "../units/draws";
import { changesGround } from "./chassis-proof";
import type { Due, Entry, EntryOf, Instrument, Reading } from "./document";
import { isFromElsewhere } from "./format";
import { formById, rowOfField } from "./forms";
import { doneBeforeMs, laterMs } from "./held-back";
import { historyCard, historyOn } from "./history/card";
import { workKindById } from "./ripple";
import { recordedSteps } from "./safety-record";

export interface DueNow extends Due {
  /** the work that made it due, by entry */
  readonly because: string;
  readonly at: string;
}
/** What a job amounts to so far, while its entries are folded in one by one. */
export interface Folding {
  readonly set: SetDescription;
  readonly instruments: Map<string, Instrument>;
  readonly readings: Reading[];
  readonly estimates: Map<string, Estimate>;
  readonly works: EntryOf<"work">[];
  /** kept values, by path: which entry put it there */
  readonly kept: Map<string, string>;
  readonly found: Set<string>;
  readonly begun: Set<string>;
  readonly proven: Set<string>;
  /** steps that somebody has done, proved or not: only such a one can be due again */
  readonly done: Set<string>;
  readonly due: Map<string, DueNow[]>;
  /** what others did and is so, by the entry that first said so */
  readonly past: ReadonlyMap<HistoryName, string>;
  /** the act that the chassis stands by, while nothing that it rested on was changed */
  act?: EntryOf<"chassis"> | undefined;
  /** why the last one fell */
  fell?: string | undefined;
  /** when what a proof of the chassis rested on was changed last, ms since 1970 */
  shakenMs: number;
  /** when each step was last worked on or made due, ms since 1970 */
  readonly workedMs: Map<string, number>;
}

/** Safety steps that hand-over rests on. */
const underHandOver: readonly string[] = ["02", "03", "04", "08", "35"];

function put(f: Folding, path: string, value: unknown, id: string): void {
  putValue(f.set, path, value);
  settleGuess(f.set, path);
  f.kept.set(path, id);
}
/** What others did loosens what stood there till then; what is measured later stands. */
function learn(f: Folding, id: string): void {
  for (const [name, at] of f.past) if (at === id) loosen(f.set, name);
}
/** A proof of the chassis falls with any fact that it rested on, whichever face changed it. */
function shake(f: Folding, e: EntryOf<"fact"> | EntryOf<"values">): void {
  const path = changesGround(f.set, e);
  if (path === undefined) return;
  f.shakenMs = laterMs(f.shakenMs, e);
  if (!f.act || !isSafeToJoin(f.act.state)) return;
  f.act = undefined;
  f.fell = `${path} was changed on ${dayInWords(e.at)}, after it was proved`;
}
function foldReading(f: Folding, { reading }: EntryOf<"reading">): void {
  f.readings.push(reading);
  (reading.state === "as-found" ? f.found : f.begun).add(reading.step);
}
function foldChassis(f: Folding, e: EntryOf<"chassis">): void {
  // what was proved elsewhere proves nothing here
  if (isFromElsewhere(e) && isSafeToJoin(e.state)) return;
  // nor does what was held back, of work and changes since it was done
  if (isSafeToJoin(e.state) && doneBeforeMs(e, f.shakenMs)) {
    f.act = undefined;
    f.fell = "the last proof came in late: the line side was changed after it was done";
    return;
  }
  f.act = e;
  f.fell = undefined;
}
function foldDone(f: Folding, e: EntryOf<"done">): void {
  const worked = f.workedMs.get(e.step);
  if ((worked !== undefined && doneBeforeMs(e, worked)) || (isFromElsewhere(e) && recordedSteps.some((s) => s === e.step))) {
    f.begun.add(e.step);
    return;
  }
  f.proven.add(e.step);
  f.done.add(e.step);
  f.due.delete(e.step);
}
function foldWork(f: Folding, e: EntryOf<"work">): void {
  const { begun, proven, due } = f;
  f.works.push(e);
  const kind = workKindById(e.work);
  for (const step of [...(kind?.does ? [kind.does] : []), ...e.makes.map((d) => d.target)])
    f.workedMs.set(step, laterMs(f.workedMs.get(step) ?? Number.NEGATIVE_INFINITY, e));
  // work done again is begun, not proved: its old proof and what was due of it fall
  if (kind?.does) {
    begun.add(kind.does);
    f.done.add(kind.does);
    proven.delete(kind.does);
    due.delete(kind.does);
  }
  if (kind?.makesFitting && e.subject.startsWith("fittings.")) put(f, `${e.subject}.state`, kind.makesFitting, e.id);
  // hand-over falls with what it rests on, and is said anew once that is proved again
  if (e.makes.some((d) => underHandOver.includes(d.target)) && proven.delete("36")) begun.add("36");
  // what was proved of the chassis tells nothing after work on the line side
  if (e.makes.some((d) => d.target === "03")) {
    f.shakenMs = laterMs(f.shakenMs, e);
    if (f.act && isSafeToJoin(f.act.state)) f.act = undefined;
  }
  for (const d of e.makes) {
    due.set(d.target, [...(due.get(d.target) ?? []).filter((x) => x.task !== d.task), { ...d, because: e.id, at: e.at }]);
  }
}
/** What is written on a card begins the step that it is first about, a safety record each of its own; rows of a chart that nobody has read begin nothing. */
function stepsBegunBy(e: EntryOf<"form">): readonly string[] {
  const form = formById(e.form);
  if (!form) return [];
  const reads = form.reads ?? [];
  const isRead = (field: string): boolean =>
    reads.length === 0 || rowOfField(field) === undefined || reads.some((c) => field.endsWith(`: ${c}`));
  const isWritten = Object.entries(e.fields).some(([field, text]) => text.trim() !== "" && isRead(field));
  const own = form.steps.every((s) => recordedSteps.some((r) => r === s)) ? form.steps : form.steps.slice(0, 1);
  return isWritten ? own : [];
}

/**
 * Folds one entry in force into what the job amounts to so far.
 *
 * @param f what it amounts to before, changed in place
 * @param e the entry
 * @source house frame, docs/job-format.md
 */
export function foldEntry(f: Folding, e: Entry): void {
  switch (e.kind) {
    case "instrument":
      f.instruments.set(e.instrument.id, e.instrument);
      return;
    case "reading":
      foldReading(f, e);
      return;
    case "estimate":
      f.estimates.set(e.estimate.id, e.estimate as Estimate);
      return;
    case "values":
      shake(f, e);
      for (const [path, q] of Object.entries(e.values)) put(f, path, q, e.id);
      return;
    case "chassis":
      foldChassis(f, e);
      return;
    case "fact":
      shake(f, e);
      put(f, e.path, e.value, e.id);
      learn(f, e.id);
      return;
    case "rows":
      put(f, e.path, e.rows, e.id);
      return;
    case "work":
      foldWork(f, e);
      return;
    case "done":
      foldDone(f, e);
      return;
    case "described":
      putMember(f.set, e.list, e.member, e.as, e.after);
      settleGuess(f.set, e.list === "cans" ? "strip.cans" : `${e.list}.${e.member}`);
      return;
    case "form":
      for (const step of stepsBegunBy(e)) f.begun.add(step);
      if (e.form === historyCard) for (const [path, word] of historyOn(e.fields)) put(f, path, word, e.id);
      learn(f, e.id);
      return;
    case "fault":
    case "part":
    case "sitting":
    case "standing":
    case "waiting":
    case "attachment":
    case "correction":
      return;
  }
}
