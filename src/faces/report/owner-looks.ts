import type { Content, TableCell } from "pdfmake/interfaces";
import { head, table } from "./paper";

/** How the report to the owner looks: large letters, headings that part from nothing. */

/** Letters for reading glasses. */
export const body = 12;
export const inTables = 10.5;
/** A heading that never stands alone at the foot of a page. */
export const section = (title: string, first: Content, ...rest: Content[]): Content[] => [
  { unbreakable: true, stack: [head(title), first] },
  ...rest,
];
export const said = (text: string): Content => ({ text, margin: [0, 0, 0, 4] });

/** A table whose heading stands in it: it parts neither from its first row nor from the heads on the next page. */
export const tabled = (title: TableCell, widths: (string | number)[], heads: string[], rows: TableCell[][]): Content =>
  ({ fontSize: inTables, ...(table(widths, heads, rows, { title }) as object) }) as Content;
