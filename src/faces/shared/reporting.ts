import type { JobView } from "../../job/view";
import { benchOf, subjectsIn } from "../../job/view";
import type { AnySheet } from "../../sheets/contract";
import { sheets } from "../../sheets/index";
import { resolveInputs, unreadOf } from "../../sheets/resolve";
import { cardsDefinition } from "../report/cards";
import { pdfBytes } from "../report/pdf";
import { type ReportParts, reportDefinition } from "../report/report";
import { ask } from "./actions";

/**
 * Sheets whose answers belong in a job's report: those that this set can be asked and that have what they must read. One that rests on an example
 * is left out, since it says nothing of this set.
 *
 * @param view the job
 * @returns sheets in the order of the index
 * @source house frame
 */
export const reportSheets = (view: JobView): readonly AnySheet[] =>
  sheets.filter((s) => {
    const at = subjectsIn(view, s)[0];
    if (at === undefined) return false;
    const inputs = resolveInputs(s, benchOf(view, at));
    return !inputs.ok || unreadOf(s, inputs.value).length === 0;
  });

/** The report of a job as PDF; empty when it was stopped. */
export async function reportPdf(
  view: JobView,
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<Uint8Array> {
  const answers: ReportParts["answers"][number][] = [];
  for (const sheet of reportSheets(view)) {
    progress(sheet.title);
    // let others have their turn between two answers
    await new Promise((r) => setImmediate(r));
    if (stopped()) return new Uint8Array();
    answers.push({ sheet, answer: ask(sheet, view, undefined, {}) });
  }
  return pdfBytes(reportDefinition({ view, answers }));
}

/** Record cards of a job as PDF: one or all, as written or blank for pencil. */
export const cardsPdf = (view: JobView, which: string | undefined, blank: boolean): Promise<Uint8Array> =>
  pdfBytes(cardsDefinition(view, which, blank));
