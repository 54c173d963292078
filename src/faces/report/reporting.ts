import type { Content, TDocumentDefinitions } from "pdfmake/interfaces";
import type { Answer, Ask } from "../../ask/answered";
import type { AnySheet } from "../../ask/contract";
import { resolveInputs, unreadOf } from "../../ask/resolve";
import type { Resolved } from "../../ask/resolved";
import { ask, sheetNamed, subjectFor } from "../../desk/actions";
import type { Given } from "../../desk/errand";
import { type LeftOut, sayLeftOut } from "../../desk/left-out";
import { isAskedFor } from "../../job/accessory-states";
import { knownInFull } from "../../job/known-answers";
import { dialCardOf } from "../../job/rollups/dial-papers";
import { ownersReportOf } from "../../job/rollups/owner/owner";
import { type ExchangedLine, exchangedOf } from "../../job/rollups/owner/work";
import { type PartLine, partsIn, partsOf } from "../../job/rollups/parts";
import type { JobView } from "../../job/view";
import { benchOf, setPointsOf, subjectLabel, subjectsIn } from "../../job/view";
import { plannedConverter } from "../../set/patterns/build";
import { sheets } from "../../sheets/index";
import { good, InputError, type Read, sayIssue } from "../../units/issue";
import { sweepsDrawing } from "../figures/sweeps";
import { cardsDefinition } from "./cards";
import { dialCardDefinition } from "./dial-card";
import { converterCard } from "./dial-papers";
import { ownersPaper } from "./owner";
import { pdfBytes } from "./pdf";
import { type RecordParts, technicalRecord } from "./technical-record";

/**
 * Questions whose answers belong in a job's report: those that this set can be asked and that have what they must read. One that rests on an example
 * is left out, since it says nothing of this set; so is an accessory that is only offered.
 *
 * @param view the job
 * @returns sheets in the order of the index, each with its subject: of a stage every one that was read
 * @source house frame
 */
export const reportSheets = (view: JobView): readonly { readonly sheet: AnySheet; readonly at: string }[] =>
  sheets.flatMap((sheet) => {
    const subjects = subjectsIn(view, sheet).filter((at) => isAskedFor(view, at));
    return (sheet.subject === "stage" ? subjects : subjects.slice(0, 1)).flatMap((at) => {
      const value = resolved(sheet, view, at);
      // what is refused is asked all the same, so that it is named with its reason
      if (!value) return [{ sheet, at }];
      const unanswered = sheet.subject === "stage" && value.missing.length > 0;
      return unreadOf(sheet, value).length > 0 || unanswered || isExample(sheet, value) ? [] : [{ sheet, at }];
    });
  });

/** Inputs of a sheet; undefined where they are refused. */
function resolved(sheet: AnySheet, view: JobView, at: string): Resolved | undefined {
  try {
    const inputs = resolveInputs(sheet, benchOf(view, at));
    return inputs.ok ? inputs.value : undefined;
  } catch {
    return undefined;
  }
}

/** Whether all that matters most to a sheet is its own example: nothing of it was said or read of this set. */
function isExample(sheet: AnySheet, { quantities, tables }: Resolved): boolean {
  const own = quantities.filter((q) => sheet.first.includes(q.path));
  const fromSheet = (path: string, source: string): boolean => {
    const input = sheet.inputs[path];
    return input?.kind === "quantity" && input.assumed?.source === source;
  };
  return own.length > 0 && own.every((q) => fromSheet(q.path, q.quantity.source)) && tables.every((t) => t.origin === "assumed");
}

interface Answered {
  readonly answers: RecordParts["answers"];
  readonly leftOut: readonly LeftOut[];
}

/** Answers of a job, one by one, and what is left out; nothing when it was stopped. */
async function answersOf(
  view: JobView,
  asked: ReturnType<typeof reportSheets>,
  how: Ask,
  progress: (said: string) => void,
  stopped: () => boolean,
): Promise<Answered> {
  const answers: RecordParts["answers"][number][] = [];
  const leftOut: LeftOut[] = [];
  for (const { sheet, at } of asked) {
    progress(sheet.title);
    // let others have their turn between two answers
    await new Promise((r) => setImmediate(r));
    if (stopped()) return { answers: [], leftOut: [] };
    try {
      answers.push({ sheet, at: at ?? "", answer: ask(sheet, view, at, knownInFull(view, sheet.id, at) ? {} : how) });
    } catch (e) {
      const of = sheet.subject === "stage" ? ` (${subjectLabel(view.set, at)})` : "";
      leftOut.push({ title: `${sheet.title}${of}`, why: whyRefused(e) });
    }
  }
  return { answers, leftOut };
}
/** Why a sheet gave no answer: what it was told and can't take, or that it could not work with what it was given. */
const whyRefused = (e: unknown): string =>
  e instanceof InputError ? e.issues.map(sayIssue).join("; ") : "it can't work with the values given: look for one that is impossible";

export interface PartsList {
  readonly lines: readonly PartLine[];
  readonly leftOut: readonly LeftOut[];
  /** parts that are in already, each with the one that it took the place of */
  readonly used: readonly ExchangedLine[];
}
/** The shopping list of a job: what its answers ask for. */
export async function partsList(
  view: JobView,
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<PartsList> {
  const asked = reportSheets(view).filter(({ sheet }) => sheet.parts !== undefined);
  // a part is asked for or it is not: few draws tell
  const { answers, leftOut } = await answersOf(view, asked, { draws: 200, points: 11 }, progress, stopped);
  const wanted = answers.map(({ sheet, at, answer }) => ({ title: sheet.title, at, parts: answer.parts }));
  return { lines: partsOf(wanted, partsIn(view)), leftOut, used: exchangedOf(view) };
}

/** The answers of a job's report, and what is left out of it. */
export const reportAnswers = (
  view: JobView,
  how: Ask = {},
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<Answered> => answersOf(view, reportSheets(view), how, progress, stopped);

/** Answers of a job's report but those of the questions named, about the subject that each is asked about where none is said. None when it was stopped. */
export async function answersBut(
  view: JobView,
  but: Given<"answers">["but"],
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<readonly Answer[]> {
  const named = new Set(but.map(({ sheet, at }) => `${sheet} ${subjectFor(sheetNamed(sheet), view, at)}`));
  const asked = reportSheets(view).filter(({ sheet, at }) => !named.has(`${sheet.id} ${at ?? ""}`));
  return (await answersOf(view, asked, {}, progress, stopped)).answers.map((a) => a.answer);
}

/** The technical record as pdfmake's document definition: everything, with every input and where it comes from; empty when it was stopped. */
export async function recordDefinition(
  view: JobView,
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<TDocumentDefinitions> {
  const { answers, leftOut } = await reportAnswers(view, {}, progress, stopped);
  if (stopped()) return { content: [] };
  return technicalRecord({ view, answers, leftOut: leftOut.map(sayLeftOut) });
}
/** The technical record of a job as PDF; empty when it was stopped. */
export async function recordPdf(
  view: JobView,
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<Uint8Array> {
  const definition = await recordDefinition(view, progress, stopped);
  if (stopped()) return new Uint8Array();
  progress("laying out the pages");
  return pdfBytes(definition);
}

/** Most cards that are bound into the report to the owner; others are printed by themselves. */
const mostCards = 3;
/** The card of a dial on one page. */
function dialPage(view: JobView, at: string): Read<TDocumentDefinitions> {
  const card = dialCardOf(view, at);
  return card.ok ? good(dialCardDefinition(card.value, 1, 27)) : card;
}
/** Cards that sit with the set, as pages: of each dial with enough zero beats, and of a converter that is fitted. */
function cardsOf(view: JobView): readonly Content[] {
  const dials = view.set.bands.flatMap((b) => setPointsOf(view, b.id).map((p) => `bands.${b.id}${p === "" ? "" : `:${p}`}`));
  const fitted = view.set.fittings.some((f) => f.kind === plannedConverter.kind && (f.state === "fitted" || f.state === "set"));
  const made = [...dials.map((at) => dialPage(view, at)), ...(fitted ? [converterCard(view)] : [])];
  return made.flatMap((card) => (card.ok ? [{ stack: [card.value.content], fontSize: 10 } as Content] : [])).slice(0, mostCards);
}

/** The report to the owner as pdfmake's document definition; undefined when it was stopped. */
export async function ownersDefinition(
  view: JobView,
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<TDocumentDefinitions | undefined> {
  const { lines } = await partsList(view, progress, stopped);
  if (stopped()) return undefined;
  progress("before and after");
  const toGet = lines.map((l) => `${l.part}${l.was ? ` (${l.was})` : ""}`);
  const report = ownersReportOf(view, toGet);
  progress("cards that sit with the set");
  await new Promise((r) => setImmediate(r));
  if (stopped()) return undefined;
  const stamp = view.document.entries.at(-1)?.at ?? view.created;
  return ownersPaper({ report, stamp, sweeps: sweepsDrawing(view), cards: cardsOf(view) });
}
/** The report to the owner as PDF; empty when it was stopped. */
export async function ownersPdf(
  view: JobView,
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<Uint8Array> {
  const definition = await ownersDefinition(view, progress, stopped);
  if (!definition) return new Uint8Array();
  progress("laying out the pages");
  return pdfBytes(definition);
}

/** Record cards of a job as PDF: one or all, as written or blank for pencil. */
export const cardsPdf = (view: JobView, which: string | undefined, blank: boolean): Promise<Uint8Array> =>
  pdfBytes(cardsDefinition(view, which, blank));
