import { type PartLine, partsOf, replacedIn } from "../../job/rollups/parts";
import type { JobView } from "../../job/view";
import { benchOf, subjectsIn } from "../../job/view";
import type { Ask } from "../../sheets/answer";
import type { AnySheet } from "../../sheets/contract";
import { sheets } from "../../sheets/index";
import { type Resolved, resolveInputs, unreadOf } from "../../sheets/resolve";
import { cardsDefinition } from "../report/cards";
import { pdfBytes } from "../report/pdf";
import { type ReportParts, reportDefinition } from "../report/report";
import { ask } from "./actions";

/**
 * Questions whose answers belong in a job's report: those that this set can be asked and that have what they must read. One that rests on an example
 * is left out, since it says nothing of this set.
 *
 * @param view the job
 * @returns sheets in the order of the index, each with its subject: of a stage every one that was read
 * @source house frame
 */
export const reportSheets = (view: JobView): readonly { readonly sheet: AnySheet; readonly at: string }[] =>
  sheets.flatMap((sheet) => {
    const subjects = subjectsIn(view, sheet);
    return (sheet.subject === "stage" ? subjects : subjects.slice(0, 1)).flatMap((at) => {
      const inputs = resolveInputs(sheet, benchOf(view, at));
      if (!inputs.ok) return sheet.subject === "stage" ? [] : [{ sheet, at }];
      const { value } = inputs;
      const unanswered = sheet.subject === "stage" && value.missing.length > 0;
      return unreadOf(sheet, value).length > 0 || unanswered || isExample(sheet, value) ? [] : [{ sheet, at }];
    });
  });

/** Whether all that matters most to a sheet is its own example: nothing of it was said or read of this set. */
function isExample(sheet: AnySheet, { quantities, tables }: Resolved): boolean {
  const own = quantities.filter((q) => sheet.first.includes(q.path));
  const fromSheet = (path: string, source: string): boolean => {
    const input = sheet.inputs[path];
    return input?.kind === "quantity" && input.assumed?.source === source;
  };
  return own.length > 0 && own.every((q) => fromSheet(q.path, q.quantity.source)) && tables.every((t) => t.origin === "assumed");
}

/** Answers of a job, one by one; empty when it was stopped. */
async function answersOf(
  view: JobView,
  asked: ReturnType<typeof reportSheets>,
  how: Ask,
  progress: (said: string) => void,
  stopped: () => boolean,
): Promise<ReportParts["answers"]> {
  const answers: ReportParts["answers"][number][] = [];
  for (const { sheet, at } of asked) {
    progress(sheet.title);
    // let others have their turn between two answers
    await new Promise((r) => setImmediate(r));
    if (stopped()) return [];
    answers.push({ sheet, answer: ask(sheet, view, at, how) });
  }
  return answers;
}

/** The shopping list of a job: what its answers ask for. */
export async function partsList(
  view: JobView,
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<readonly PartLine[]> {
  const asked = reportSheets(view).filter(({ sheet }) => sheet.parts !== undefined);
  // a part is asked for or it is not: few draws tell
  return partsOf(
    (await answersOf(view, asked, { draws: 200, points: 11 }, progress, stopped)).map(({ sheet, answer }) => ({
      title: sheet.title,
      parts: answer.parts,
    })),
    replacedIn(view),
  );
}

/** The report of a job as PDF; empty when it was stopped. */
export async function reportPdf(
  view: JobView,
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<Uint8Array> {
  const answers = await answersOf(view, reportSheets(view), {}, progress, stopped);
  if (stopped()) return new Uint8Array();
  return pdfBytes(reportDefinition({ view, answers }));
}

/** Record cards of a job as PDF: one or all, as written or blank for pencil. */
export const cardsPdf = (view: JobView, which: string | undefined, blank: boolean): Promise<Uint8Array> =>
  pdfBytes(cardsDefinition(view, which, blank));
