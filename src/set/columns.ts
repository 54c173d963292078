import type { Dimension } from "../units/dimensions";
import type { Issue, Read } from "../units/issue";
import { longestQuantity, parseQuantity } from "../units/parse";
import { printExact } from "../units/print";
import { socketNumber } from "./sockets";

/** A column of a table: a quantity, or one of a few words (held as its place among them). */
export interface Column {
  readonly meaning: string;
  readonly dimension?: Dimension;
  readonly options?: readonly string[];
  /** written before the figure, such as the V of a socket; it may be left out */
  readonly prefix?: string;
  /** whether it names sockets, where V5a and V5b are the halves of a double tube */
  readonly halves?: boolean;
  /** unit of a bare figure; on a record card it is taken only where the printed heading shows that unit */
  readonly bare?: string;
  /** may be left out of a row; it is then the first of its options, or not a number */
  readonly optional?: boolean;
}
export type Row = Readonly<Record<string, number>>;
/** A cell of a row by itself: nothing where nothing was written, and a zero that was measured is a value. */
export type Cell = number | undefined;
export const cell = (written: number | undefined): Cell => (written === undefined || Number.isNaN(written) ? undefined : written);
/** Rows as a record card has them, and the cells on it that hold nothing that can be read: those are gone round, and said. */
export interface FromCard {
  readonly rows: readonly Row[];
  readonly unread: readonly Issue[];
}
/**
 * Rows as written: one a line or between semicolons, columns between commas, in the order of the declaration.
 *
 * @param text such as `12.4, 3.5 MHz, up; 31.0, 3.6 MHz, up`
 * @param path name of the input, for the errors
 * @param input its declaration
 * @returns the rows, or an issue at each cell that is wrong
 * @source house frame
 */
export function readRows(text: string, path: string, input: { readonly columns: Readonly<Record<string, Column>> }): Read<Row[]> {
  const issues: Issue[] = [];
  const columns = Object.entries(input.columns);
  const rows = text
    .split(/[\n;]/)
    .map((l) => l.trim())
    .filter((l) => l !== "")
    .map((line, r) => {
      const cells = line.split(",").map((c) => c.trim());
      const at = `${path} row ${r + 1}`;
      if (cells.length > columns.length)
        issues.push({ path: at, code: "too-many-cells", read: line, expected: columns.map(([n]) => n).join(", ") });
      return Object.fromEntries(columns.map(([name, c], i) => [name, readCell(cells[i] ?? "", `${at} ${name}`, c, issues)]));
    });
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: rows };
}
const bareFigure = /^[+-]?\d*[.,]?\d+$/;
/**
 * One cell of a table, by its column: the one reader of cells, of typed rows and of record cards.
 *
 * @param text as written
 * @param path where it stands, for the error
 * @param c the column; a bare figure is taken only where it declares the unit
 * @param issues the cell's own error is added here
 * @returns SI value, place among the options, or NaN where nothing was written or it can't be read
 * @source house frame
 */
export function readCell(text: string, path: string, c: Column, issues: Issue[]): number {
  if (text === "" && c.optional) return c.options ? 0 : Number.NaN;
  if (c.options) {
    const k = c.options.indexOf(text);
    if (k < 0) issues.push({ path, code: "not-an-option", read: text, expected: `one of ${c.options.join(", ")}` });
    return k;
  }
  const figure = c.prefix && text.toUpperCase().startsWith(c.prefix) ? text.slice(c.prefix.length) : text;
  if (c.halves) {
    const socket = socketNumber(text);
    if (socket === undefined)
      issues.push({ path, code: "not-a-socket", read: text, expected: "a socket, such as V5, or V5a for one half of a double tube" });
    return socket ?? Number.NaN;
  }
  const r = parseQuantity(
    c.bare && figure.length <= longestQuantity && bareFigure.test(figure) ? `${figure} ${c.bare}` : figure,
    c.dimension ?? "ratio",
    path,
  );
  if (!r.ok) issues.push(...r.issues);
  return r.ok ? r.value.value : Number.NaN;
}

/**
 * Rows as they are stored: SI numbers by column, words where a column has words, nothing where nothing was written.
 *
 * @param rows as a question sees them
 * @param columns of the list
 * @source house format, docs/job-format.md
 */
export const rowsToStore = (rows: readonly Row[], columns: Readonly<Record<string, Column>>): Record<string, number | string>[] =>
  rows.map((row) =>
    Object.fromEntries(
      Object.entries(columns).flatMap(([name, c]) => {
        const v = row[name];
        if (v === undefined || Number.isNaN(v)) return [];
        return [[name, c.options ? (c.options[v] ?? "") : v] as const];
      }),
    ),
  );
/**
 * Rows as a question sees them, of rows as they were stored.
 *
 * @param stored rows by column
 * @param columns of the list
 * @returns rows, NaN where nothing was written; undefined where one holds what its column has not
 * @source house format, docs/job-format.md
 */
export function rowsFromStore(
  stored: readonly Readonly<Record<string, number | string>>[],
  columns: Readonly<Record<string, Column>>,
): Row[] | undefined {
  const rows = stored.map((row) =>
    Object.fromEntries(
      Object.entries(columns).map(([name, c]) => {
        const v = Object.hasOwn(row, name) ? row[name] : undefined;
        if (v === undefined) return [name, c.options && c.optional ? 0 : Number.NaN];
        if (c.options) return [name, c.options.indexOf(String(v))];
        return [name, typeof v === "number" ? v : -1];
      }),
    ),
  );
  const wrong = rows.some((row, r) =>
    Object.entries(columns).some(([name, c]) => {
      const v = stored[r][name];
      return (c.options ? row[name] === -1 : v !== undefined && typeof v !== "number") || (v === undefined && !c.optional);
    }),
  );
  return wrong || stored.some((row) => Object.keys(row).some((k) => !Object.hasOwn(columns, k))) ? undefined : rows;
}

/**
 * Rows as a person types them: columns between commas, rows between semicolons.
 *
 * @param rows as a question sees them
 * @param columns of the list
 * @returns text that `readRows` reads back, to the digits shown; nothing for no rows
 * @source house format
 */
export const sayRows = (rows: readonly Row[], columns: Readonly<Record<string, Column>>): string =>
  rows
    .map((row) =>
      Object.entries(columns)
        .map(([name, c]) => {
          const v = row[name];
          if (v === undefined || Number.isNaN(v)) return "";
          if (c.options) return c.options[v] ?? "";
          return `${c.prefix ?? ""}${printExact(v, c.dimension ?? "ratio")}`;
        })
        .join(", ")
        .replace(/[, ]+$/, ""),
    )
    .join("; ");
