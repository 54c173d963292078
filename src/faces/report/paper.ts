import type { Content, CustomTableLayout, TableCell, TDocumentDefinitions } from "pdfmake/interfaces";
import type { Caution } from "../../standards/cautions";

/** What all papers of a job share: ink, headings, tables, the page. */
export const accent = "#b3401f";
export const quiet = "#5c666e";
const rule = "#cfc9ba";
export const head = (text: string): Content => ({ text, style: "h2" });
export const lines: CustomTableLayout = {
  hLineWidth: (i, n) => (i === 0 || i === 1 || i === n.table.body.length ? 0.8 : 0.3),
  vLineWidth: () => 0,
  hLineColor: () => rule,
  paddingTop: () => 3,
  paddingBottom: () => 3,
};

export const table = (widths: (string | number)[], heads: string[], rows: TableCell[][]): Content =>
  rows.length === 0
    ? { text: "None recorded.", color: quiet, margin: [0, 0, 0, 6] }
    : {
        layout: lines,
        margin: [0, 2, 0, 8],
        table: {
          headerRows: 1,
          keepWithHeaderRows: 1,
          dontBreakRows: true,
          widths,
          body: [heads.map((h): TableCell => ({ text: h, bold: true })), ...rows],
        },
      };

/** Cautions before a step, on lines of their own. */
export const heed = (cautions: readonly Caution[], indent = 0): Content[] =>
  cautions.length === 0 ? [] : [{ text: cautions.map((c) => c.says).join(" "), style: "caution", margin: [indent, 0, 0, 0] }];

/** The page of a paper: the same job gives the same bytes. */
export const pageOf = (job: string, title: string, stamp: string): Omit<TDocumentDefinitions, "content"> => ({
  pageSize: "A4",
  pageMargins: [48, 54, 48, 54],
  info: { title, creator: "Fettle", producer: "Fettle", creationDate: new Date(stamp) },
  defaultStyle: { font: "Roboto", fontSize: 10, lineHeight: 1.2, color: "#1d2a33" },
  styles: {
    h1: { fontSize: 24, bold: true, margin: [0, 0, 0, 4] },
    h2: { fontSize: 14, bold: true, margin: [0, 14, 0, 4] },
    answer: { fontSize: 12, bold: true, margin: [0, 2, 0, 6] },
    small: { fontSize: 8.5, color: quiet },
    caution: { fontSize: 9, color: accent, margin: [0, 1, 0, 2] },
  },
  footer: (page, pages) => ({
    columns: [{ text: `${job}, ${stamp.slice(0, 10)}` }, { text: `page ${page} of ${pages}`, alignment: "right" }],
    margin: [48, 14, 48, 0],
    fontSize: 8.5,
    color: quiet,
  }),
});

/** Said once, at the head of a paper. */
export const coverCaution =
  "B+ kills. Switch off, unplug the set, discharge the capacitors, then measure before you touch anything inside. Local code and licensed practice prevail over this report.";
