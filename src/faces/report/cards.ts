import type { Content, TableCell, TDocumentDefinitions } from "pdfmake/interfaces";
import { cardCautions } from "../../job/card-care";
import { firstCells, writtenOn } from "../../job/cards";
import { type Form, fieldsOf, forms } from "../../job/forms";
import type { JobView } from "../../job/view";

function card(view: JobView, form: Form, blank: boolean, first: boolean): Content[] {
  const fields = blank ? {} : writtenOn(view, form.id);
  const seeds = firstCells(view, form);
  const used = Math.max(0, ...Object.keys(fields).map((k) => Number(/^row (\d+)/.exec(k)?.[1] ?? 0)));
  const rows = Math.max(seeds.length + 2, used + (blank ? 0 : 1), blank ? 12 : 3);
  const heads = (form.columns ?? []).map((text): TableCell => ({ text, bold: true, fontSize: 9 }));
  const pencil = {
    hLineWidth: () => 0.5,
    vLineWidth: () => 0.5,
    hLineColor: () => "#555",
    vLineColor: () => "#555",
    paddingTop: () => 5,
    paddingBottom: () => 5,
  };
  const pairs = fieldsOf(form, fields).map((f): TableCell[] => [
    { text: f, fontSize: 9.5, color: "#444" },
    { text: fields[f] || " ", bold: true },
  ]);
  return [
    { text: form.title, fontSize: 17, bold: true, ...(first ? {} : { pageBreak: "before" }) },
    { text: `${view.document.name}. ${view.set.title}`, color: "#444", margin: [0, 0, 0, 6] },
    ...cardCautions(view, form).map((c): Content => ({ text: c.says, color: "#9c3415", fontSize: 9.5, margin: [0, 0, 0, 2] })),
    ...(pairs.length > 0 ? [{ layout: pencil, margin: [0, 6, 0, 8], table: { widths: [170, "*"], body: pairs } } as Content] : []),
    ...(form.columns
      ? [
          {
            layout: pencil,
            table: {
              headerRows: 1,
              widths: form.columns.map(() => "*"),
              body: [
                heads,
                ...Array.from({ length: rows }, (_, r) =>
                  (form.columns ?? []).map(
                    (c, i): TableCell => ({ text: fields[`row ${r + 1}: ${c}`] || (i === 0 ? (seeds[r] ?? " ") : " "), fontSize: 9.5 }),
                  ),
                ),
              ],
            },
          } as Content,
        ]
      : []),
  ];
}

/**
 * Record cards as pages: as written so far, or blank for pencil, in the order in which they are typed.
 *
 * @param view the job
 * @param which id of one card, or undefined for all
 * @param blank leave them empty
 * @returns pdfmake's document definition
 */
export function cardsDefinition(view: JobView, which: string | undefined, blank: boolean): TDocumentDefinitions {
  const chosen = forms.filter((f) => which === undefined || f.id === which);
  const stamp = view.document.entries.at(-1)?.at ?? view.document.created;
  return {
    pageSize: "A4",
    pageMargins: [42, 42, 42, 42],
    info: { title: `${view.document.name}: record cards`, creator: "Fettle", producer: "Fettle", creationDate: new Date(stamp || 0) },
    defaultStyle: { font: "Roboto", fontSize: 11 },
    footer: (page, pages) => ({
      text: `${view.document.name}, record cards, page ${page} of ${pages}`,
      alignment: "right",
      fontSize: 8.5,
      color: "#444",
      margin: [0, 12, 42, 0],
    }),
    content: chosen.flatMap((f, i) => card(view, f, blank, i === 0)),
  };
}
