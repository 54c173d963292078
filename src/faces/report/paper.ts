import type { Content, CustomTableLayout, TableCell, TDocumentDefinitions } from "pdfmake/interfaces";
import type { Caution } from "../../standards/cautions";
import { dayInWords } from "../../units/day";

/** What all papers of a job share: ink, headings, tables, the page. */
export const accent = "#b3401f";
export const quiet = "#5c666e";
const rule = "#cfc9ba";
/** Width between the margins of a page. */
export const pageWidth = 499;
export const head = (text: string): Content => ({ text, style: "h2" });
/** Rules above and below the heads and at the end; none above a title. */
const ruled = (padding: number): CustomTableLayout => ({
  hLineWidth: (i, n) => {
    const heads = Number(n.table.headerRows ?? 0);
    if (i < heads - 1) return 0;
    return i === Math.max(0, heads - 1) || i === heads || i === n.table.body.length ? 0.8 : 0.3;
  },
  vLineWidth: () => 0,
  hLineColor: () => rule,
  // what stands in a table begins where the text beside it does
  paddingLeft: (i) => (i === 0 ? 0 : 4),
  paddingTop: () => padding,
  paddingBottom: () => padding,
});
/** Pairs of a name and what it is. */
export const pairs = (width: number, rows: readonly (readonly [string, string])[]): Content => ({
  layout: ruled(3),
  table: { widths: [width, "*"], dontBreakRows: true, body: rows.map(([a, b]): TableCell[] => [{ text: a, color: quiet }, b]) },
});

/** Most height of a picture: with its title it must fit on one page, since what may not break and doesn't fit is lost without a word. */
const tallest = 600;
/**
 * A picture as wide as is asked for, or narrower where it would be too tall for a page.
 *
 * @param drawn its size in its own units
 * @returns the picture and its height on paper
 */
export function onPaper(
  drawn: { readonly svg: string; readonly width: number; readonly height: number },
  wide: number,
  most = tallest,
): { readonly content: Content; readonly height: number } {
  const scale = Math.min(wide / drawn.width, most / drawn.height);
  return { content: { svg: drawn.svg, width: scale * drawn.width }, height: scale * drawn.height };
}

export interface TableLooks {
  /** what the table is: it stands over the heads, never parts from the first row, and comes again on the next page */
  readonly title?: TableCell;
  /** smaller letters and closer rows */
  readonly small?: true;
}
/** A title in small bold letters. */
export const titled = (text: string): TableCell => ({ text, bold: true, margin: [0, 5, 0, 0] });
/** A title of a section. */
export const sectioned = (text: string): TableCell => ({ text, style: "h2" });

/** A table whose title and heads come again on each page, and that breaks only between rows; of a list that needs no heads there are none. */
export const table = (widths: (string | number)[], heads: string[], rows: TableCell[][], looks: TableLooks = {}): Content => {
  const { title, small } = looks;
  if (rows.length === 0)
    return {
      unbreakable: true,
      stack: [...(title ? [title as Content] : []), { text: "None recorded.", color: quiet, margin: [0, 0, 0, 6] }],
    };
  const over: TableCell[][] = title
    ? [[{ ...(title as object), colSpan: widths.length } as TableCell, ...widths.slice(1).map(() => ({}))]]
    : [];
  const named = heads.length === 0 ? [] : [heads.map((h): TableCell => ({ text: h, bold: true }))];
  return {
    layout: ruled(small ? 1.5 : 3),
    margin: [0, 2, 0, 8],
    ...(small ? { fontSize: 8.5 } : {}),
    table: {
      headerRows: over.length + named.length,
      keepWithHeaderRows: Math.min(2, rows.length),
      dontBreakRows: true,
      widths,
      body: [...over, ...named, ...rows],
    },
  };
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
    columns: [{ text: `${job}, ${dayInWords(stamp)}` }, { text: `page ${page} of ${pages}`, alignment: "right" }],
    margin: [48, 14, 48, 0],
    fontSize: 8.5,
    color: quiet,
  }),
});

/** Said once, at the head of a paper. */
export const coverCaution =
  "B+ kills. Switch off, unplug the set, discharge the capacitors, then measure before you touch anything inside. Local code and licensed practice prevail over this report.";
