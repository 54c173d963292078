import type { JobView } from "../../job/view";
import { subjectsOf } from "../../job/view";
import { sheets } from "../../sheets/index";
import { pdfBytes } from "../report/pdf";
import { reportDefinition } from "../report/report";
import { ask } from "./actions";

/** The report of a job as PDF: every sheet that this set can be asked, the job's records, what is due. */
export async function reportPdf(view: JobView, progress: (said: string) => void = () => undefined): Promise<Uint8Array> {
  const answers = sheets
    .filter((s) => subjectsOf(view.set, s.subject, s.fitting).length > 0)
    .map((sheet) => {
      progress(sheet.title);
      return { sheet, answer: ask(sheet, view, undefined, {}) };
    });
  return pdfBytes(reportDefinition({ view, answers }));
}
