import type { JobView } from "../../job/view";
import { subjectsOf } from "../../job/view";
import { sheets } from "../../sheets/index";
import { cardsDefinition } from "../report/cards";
import { pdfBytes } from "../report/pdf";
import { type ReportParts, reportDefinition } from "../report/report";
import { ask } from "./actions";

/** The report of a job as PDF: every sheet that this set can be asked, the job's records, what is due. */
export async function reportPdf(
  view: JobView,
  progress: (said: string) => void = () => undefined,
  stopped: () => boolean = () => false,
): Promise<Uint8Array> {
  const answers: ReportParts["answers"][number][] = [];
  for (const sheet of sheets.filter((s) => subjectsOf(view.set, s.subject, s.fitting).length > 0)) {
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
