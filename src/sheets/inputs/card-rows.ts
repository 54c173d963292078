import type { Bench } from "../../set/bench";
import type { Column, FromCard, Row } from "../../set/columns";
import { readCell } from "../../set/columns";
import type { Issue } from "../../units/issue";

/** Under this name a card's row says which one it is. */
export const rowNumber = "#";
/** Under this name a row of a survey says that its part was changed since it was written: its other cells are the new one's. */
export const mendedIn = "mended";
/** Under this name a row of the voltage chart says at which line it was read. */
export const lineThen = "Line then, V";

/** Whether a card's printed heading shows a unit as a word of its own: only then is a bare figure under it taken. */
export const headingShows = (heading: string, unit: string): boolean => heading.split(/[\s,()]+/).includes(unit);
/** A column as a card has it under its heading. */
export const underHeading = (column: Column, heading: string): Column =>
  column.bare === undefined || headingShows(heading, column.bare) ? column : { ...column, bare: undefined };

/** A column of a table under the heading of a card: words of the trade may be turned into those of the column first. */
export interface OnCard {
  readonly heading: string;
  readonly words?: (said: string) => string;
  /** whether a row without it is simply no row for this table */
  readonly mayLack?: boolean;
}

/**
 * Rows of a record card, read by the columns of a table. A cell that can't be read leaves its row out where the column is needed, and is
 * nothing where it is optional; either way it is told.
 *
 * @param bench where the card is
 * @param card its id
 * @param title what the card is called, for the errors
 * @param columns of the table
 * @param headings of the card, by the column that each feeds
 * @returns rows, each needed cell of which is there, and what could not be read
 * @source house frame
 */
export function readCard<C extends Readonly<Record<string, Column>>>(
  bench: Bench,
  card: string,
  title: string,
  columns: C,
  headings: { readonly [K in keyof C]?: OnCard },
): FromCard {
  const unread: Issue[] = [];
  const rows: Row[] = [];
  for (const written of bench.card(card)) {
    const row: Record<string, number> = {};
    let whole = true;
    for (const [name, column] of Object.entries(columns)) {
      const on = headings[name];
      const text = (on ? (written[on.heading] ?? "") : "").trim();
      const own: Issue[] = [];
      const path = `${title}, row ${written[rowNumber]}, ${on?.heading ?? name}`;
      const optional = column.optional || text === "";
      row[name] = readCell(
        on?.words && text !== "" ? on.words(text) : text,
        path,
        { ...underHeading(column, on?.heading ?? ""), optional },
        own,
      );
      // a word that is none of the list stands as it was written
      unread.push(...own.map((i) => ({ ...i, read: text })));
      if (column.optional === true || (text !== "" && own.length === 0)) continue;
      whole = false;
      if (text === "" && !on?.mayLack) unread.push({ path, code: "empty", read: "", expected: `${column.meaning}: nothing is written` });
    }
    if (whole) rows.push(row);
  }
  return { rows, unread };
}
