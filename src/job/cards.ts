import { onceFor } from "../numerics/once";
import { history, historyNames } from "../set/addresses/history";
import type { Column } from "../set/columns";
import { readCell } from "../set/columns";
import type { SetDescription } from "../set/describe";
import { headingShows, rowNumber } from "../sheets/inputs/card-rows";
import { meterExpected, meterFrom, meterKindFrom, meterNames } from "../standards/meters";
import type { Issue } from "../units/issue";
import type { Entry } from "./document";
import { type Form, formById, rowOfField } from "./forms";
import { historyIssues } from "./history/card";
import { onCard } from "./place-in";
import { figureIssues } from "./safety-record";

interface OfJob {
  readonly inForce: readonly Entry[];
  readonly set: SetDescription;
}

/** What stands in one field of a card: the text, who wrote it and when, by which entry. */
export interface Writing {
  readonly text: string;
  readonly who: string;
  readonly at: string;
  readonly entry: string;
}
/**
 * What stands on a card, each field by itself: its last writing in force; a field that was emptied is none.
 *
 * @param view entries in force, in order
 * @param id of the card
 * @returns writings by field
 * @source house frame
 */
export function writingOn(view: Pick<OfJob, "inForce">, id: string): ReadonlyMap<string, Writing> {
  return writingIn(view.inForce, id);
}
const writingIn = onceFor(
  (inForce: readonly Entry[], id: string): ReadonlyMap<string, Writing> => {
    const out = new Map<string, Writing>();
    for (const e of onCard(inForce, id))
      for (const [field, text] of Object.entries(e.fields))
        if (text === "") out.delete(field);
        else out.set(field, { text, who: e.who, at: e.at, entry: e.id });
    return out;
  },
  (id) => id,
);
/** What stands on a card, by field; cells of its table as `row 1: Tube`. */
export const writtenOn = (view: Pick<OfJob, "inForce">, id: string): Readonly<Record<string, string>> =>
  Object.fromEntries([...writingOn(view, id)].map(([field, w]) => [field, w.text]));
/**
 * First cells of a card's rows that the set itself supplies.
 *
 * @returns texts, in the order of the rows; none where the card supplies none
 * @source house frame
 */
export function firstCells(view: Pick<OfJob, "set">, form: Form): readonly string[] {
  if (form.rowsFrom === "tubes") return view.set.tubes.map((t) => `${t.socket} ${t.function}`);
  if (form.rowsFrom === "bands") return view.set.bands.map((b) => b.label);
  if (form.rowsFrom === "history") return historyNames.map((n) => history[n].meaning);
  if (form.rowsFrom === "fittings") return view.set.fittings.map((f) => f.label);
  return [];
}
/**
 * First cells that a card offers as it stands: a row that holds anything keeps its own; the rest of the rows are for what no row is about yet.
 *
 * @param view the job, what is only being typed as if it were written
 * @param form the card
 * @returns texts, in the order of the rows
 * @source house frame
 */
export function offeredCells(view: OfJob, form: Form): readonly string[] {
  const own = firstCells(view, form);
  const [first] = form.columns ?? [];
  const written = writtenOn(view, form.id);
  const held = new Set(Object.keys(written).flatMap((field) => rowOfField(field) ?? []));
  const about = (row: number): string => written[`row ${row}: ${first}`] ?? own[row - 1] ?? "";
  const subject = (cell: string): string => (form.rowsFrom === "tubes" ? cell.split(" ")[0] : cell);
  const taken = new Set([...held].map((row) => subject(about(row))));
  const free = own.filter((cell) => !taken.has(subject(cell)));
  const rows: string[] = [];
  for (let row = 1; free.length > 0 || row <= Math.max(0, ...held); row++)
    rows.push(held.has(row) ? (own[row - 1] ?? "") : (free.shift() ?? ""));
  return rows;
}
/** A row of a card's table as written: its number, and its cells by column. */
export interface CardRow {
  readonly number: number;
  readonly cells: Readonly<Record<string, string>>;
}
/**
 * Rows of a card as written; a row in which nothing but a supplied first cell stands is none.
 *
 * @param id of the card
 * @returns rows in order; none where the card has no table
 * @source house frame
 */
export function cardRows(view: OfJob, id: string): readonly CardRow[] {
  const form = formById(id);
  if (!form?.columns) return [];
  const { columns } = form;
  const fields = new Map(Object.entries(writtenOn(view, id)));
  const count = [...fields.keys()].reduce((n, k) => Math.max(n, rowOfField(k) ?? 0), 0);
  const seeds = firstCells(view, form);
  return Array.from({ length: count }, (_, r) => ({
    number: r + 1,
    cells: Object.fromEntries([
      [rowNumber, String(r + 1)],
      ...columns.map((c, i) => [c, fields.get(`row ${r + 1}: ${c}`) ?? (i === 0 ? (seeds[r] ?? "") : "")]),
    ]),
  })).filter((row) => columns.slice(1).some((c) => row.cells[c] !== ""));
}
export const rowsOn = (view: OfJob, id: string): readonly Readonly<Record<string, string>>[] => cardRows(view, id).map((r) => r.cells);

/** The column that a heading of a card declares by the unit that it shows: only then is a bare figure taken. */
const columnOf = (heading: string): Column | undefined => {
  const shown = (
    [
      ["voltage", "V"],
      ["resistance", "Ω"],
      ["current", "mA"],
    ] as const
  ).find(([, unit]) => headingShows(heading, unit));
  if (shown) return { meaning: heading, dimension: shown[0], ...(shown[0] === "resistance" ? {} : { bare: shown[1] }) };
  return heading === "Value" || heading === "Measured value" ? { meaning: heading, dimension: "capacitance" } : undefined;
};
/**
 * Cells of the cards that sheets compute with which hold no figure that can be read, each at its place.
 *
 * @param id of the card
 * @param fields text by field
 * @returns an issue a field that is refused; nothing where all can be read
 * @source house frame
 */
export function cardIssues(id: string, fields: Readonly<Record<string, string>>): Issue[] {
  return [...lineIssues(fields), ...ownIssues(id, fields)];
}
/** The line as it was read at the outlet, on whichever card: a voltage that a line can have. */
function lineIssues(fields: Readonly<Record<string, string>>): Issue[] {
  const text = (fields[lineField] ?? "").trim();
  if (text === "") return [];
  const issues: Issue[] = [];
  const volts = readCell(text, lineField, { meaning: "line volts", dimension: "voltage", bare: "V" }, issues);
  if (issues.length === 0 && !(volts > 0 && volts <= 500))
    issues.push({ path: lineField, code: "out-of-range", read: text, expected: "volts of a line: above 0, at most 500 V" });
  return issues;
}
/** Cards that list capacitors, the set's and an accessory's. */
const surveys = ["capacitors", "accessory-capacitors"];
const lineField = "Line volts";
/** Words for volts, lines and ranges, which may stand beside a meter or alone. */
const besideMeter = /\d+(?:[.,]\d+)?|\b(?:v|volts?|ac|line|mains|range|scale|at|on|the|of)\b|[\s,;.()-]/gi;
/** What a field for a meter should hold, where its words name none. */
function meterIssue(name: string, text: string): string | undefined {
  if (/^(?:row \d+: )?Meter$/.test(name)) return meterFrom(text) ? undefined : meterExpected;
  if (name !== "Chart's meter and line" || meterKindFrom(text) || text.replace(besideMeter, "") === "") return undefined;
  return `the chart's meter and line, such as "20 kΩ/V, 117 V". Meters: ${meterNames.join("; ")}`;
}
function ownIssues(id: string, fields: Readonly<Record<string, string>>): Issue[] {
  if (id === "history") return historyIssues(fields);
  if (["safety-in", "safety-out", "first-power"].includes(id)) return figureIssues(fields);
  if (!["voltage-chart", "resistance-chart", ...surveys].includes(id)) return [];
  return Object.entries(fields).flatMap(([name, text]) => {
    if (id === "voltage-chart" && text.trim() !== "") {
      const expected = meterIssue(name, text);
      if (expected !== undefined) return [{ path: name, code: "no-meter", read: text, expected }];
    }
    const column = columnOf(/^row \d+: (.*)$/.exec(name)?.[1] ?? "");
    const issues: Issue[] = [];
    if (!column || text.trim() === "") return [];
    const value = readCell(text.trim(), name, column, issues);
    // volts have a sign; what a part is marked or measured with has none, and no part is marked with nothing
    if (issues.length === 0 && surveys.includes(id) && /: (?:Value|Measured value|Rated V)$/.test(name) && !(value > 0))
      issues.push({
        path: name,
        code: "not-positive",
        read: text,
        expected: `more than zero, such as ${column.dimension === "voltage" ? "450 V" : "20 µF"}`,
      });
    else if (issues.length === 0 && value < 0 && (surveys.includes(id) || column.dimension === "resistance"))
      issues.push({ path: name, code: "negative", read: text, expected: "zero or more" });
    return issues;
  });
}
