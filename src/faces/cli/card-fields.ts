import { writingOn } from "../../job/cards";
import { fieldNotes } from "../../job/field-notes";
import type { Form } from "../../job/forms";
import { readPoints } from "../../job/rollups/read-points";
import type { JobView } from "../../job/view";
import { columnsOf } from "./render";

/** The fields of a card, one a line: name as `fill` takes it, unit, how it is measured, and what stands there. */
export function cardFieldLines(view: JobView, form: Form, columnsCount: number): string[] {
  const written = writingOn(view, form.id);
  const again = readPoints(view, form).filter((p) => p.again);
  return [
    `${form.title}: fettle fill JOB ${form.id} "FIELD"=VALUE. Rows of its table are numbered: row 1, row 2; or come from a file with --rows.`,
    ...columnsOf(
      fieldNotes(form).map(([field, { unit, how }]) => {
        const stands = written.get(field)?.text;
        return [field, unit ?? "", `${how}${stands === undefined ? "" : `. On the card: ${stands}`}`];
      }),
      columnsCount,
    ),
    ...(again.length === 0
      ? []
      : [
          "",
          `To be read again since the last work, and nothing else of its table (fettle fill JOB ${form.id} --down "FIRST SECOND ..." takes them in this order):`,
          ...columnsOf(
            again.map((p) => [p.field, p.at, `was ${p.stands}`]),
            columnsCount,
          ),
        ]),
  ];
}
