import { cardIssues, writingOn } from "../job/cards";
import type { Entry } from "../job/document";
import { type Form, formById, forms, hasField, mostRows, rowOfField } from "../job/forms";
import { placeIn } from "../job/place-in";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { readCsv } from "../units/csv";
import { bad, good, type Issue, type Read } from "../units/issue";
import { idsOf, oneOf } from "../units/nearest";

/** What of a writing is kept, and what is not. */
export interface Filled {
  /** what is written: the cells that can be read and are new */
  readonly entry: Entry;
  /** cells and fields that were kept, those that stood there already among them */
  readonly keptCount: number;
  /** each that was not, at its place on the card */
  readonly refused: readonly Issue[];
  /** rows of the table before and after, where a file took its place */
  readonly rows?: { readonly before: number; readonly after: number };
}

/**
 * What is written on a record card, as an entry: these fields, and these rows in the place of its whole table; nothing else of the card is touched. A
 * cell that can't be read keeps no other from being written. What stands there already is not written twice, unless work has touched a step of the card
 * since: then the same value, typed again, is a new one.
 *
 * @param view the job
 * @param card its id
 * @param fields field to text; `row 1: Tube` for a cell
 * @param rows a CSV file headed by the card's own columns
 * @returns what is kept and what is refused; or what is wrong, at its place, where nothing can be kept
 */
export function fillCard(
  view: JobView,
  card: string,
  fields: Readonly<Record<string, string>>,
  rows: { readonly name: string; readonly bytes: Uint8Array } | undefined,
  stamp: Stamp,
): Read<Filled> {
  const form = formById(card);
  if (!form) return bad("card", "no-card", card, oneOf(card, idsOf(forms)));
  const columns = form.columns ?? [];
  const cells = rows ? cellsFrom(rows, card, columns) : good({ cells: new Map<string, string>(), refused: [] });
  if (!cells.ok) return cells;
  const typed = [...cells.value.cells, ...Object.entries(fields)];
  const known = Object.fromEntries(typed.filter(([f]) => hasField(form, f)));
  const unread = cardIssues(card, known);
  const refused = [
    ...cells.value.refused,
    ...typed
      .filter(([f]) => !hasField(form, f))
      .map(([f]) => ({
        path: f,
        code: "no-field",
        read: f,
        expected: oneOf(f, [...form.fields, ...columns.map((c) => `row 1: ${c}`)]),
      })),
    ...unread,
  ].map((i) => ({ ...i, path: `card ${card}, ${i.path.replace(/^row (\d+): /, "row $1, ")}` }));
  const kept = Object.entries(known).filter(([f]) => !unread.some((i) => i.path === f));
  if (kept.length === 0 && refused.length > 0) return { ok: false, issues: refused };
  const before = writingOn(view, card);
  const old = beforeWork(view, form);
  // rows from a file take the place of the whole table: a cell that they leave out is emptied
  const emptied = rows ? [...before.keys()].filter((k) => rowOfField(k) !== undefined).map((k) => [k, ""] as const) : [];
  const wanted = new Map([...emptied, ...kept]);
  const changed = Object.fromEntries(
    [...wanted].filter(([k, text]) => text !== (before.get(k)?.text ?? "") || (k in fields && old.has(before.get(k)?.entry ?? ""))),
  );
  if (Object.keys(changed).length === 0)
    return {
      ok: false,
      issues: [
        ...refused,
        ...bad("card", "nothing-new", card, `a field with a new value, such as "${form.fields[0] ?? `row 1: ${form.columns?.[0]}`}=…"`)
          .issues,
      ],
    };
  return good({
    entry: { id: stamp.newId(), at: stamp.at, who: stamp.who, kind: "form", form: card, fields: changed },
    keptCount: kept.length,
    refused,
    ...(rows ? { rows: { before: rowsIn(before.keys()), after: rowsIn(kept.map(([f]) => f)) } } : {}),
  });
}
/** How many rows of a table some cells are of. */
const rowsIn = (names: Iterable<string>): number => new Set([...names].flatMap((f) => rowOfField(f) ?? [])).size;

/** Entries from before the last work in force that made a step of a card due again. */
function beforeWork(view: JobView, form: Form): ReadonlySet<string> {
  const last = placeIn(view.inForce, view.works.findLast((e) => e.makes.some((d) => form.steps.includes(d.target)))?.id);
  return new Set(view.inForce.slice(0, Math.max(0, last)).map((e) => e.id));
}

/** Cells of a table from a CSV file that is headed by the card's own columns, by field; a line with more cells than headings is refused by itself. */
function cellsFrom(
  rows: { readonly name: string; readonly bytes: Uint8Array },
  card: string,
  columns: readonly string[],
): Read<{ readonly cells: ReadonlyMap<string, string>; readonly refused: readonly Issue[] }> {
  if (columns.length === 0) return bad(rows.name, "no-table", card, "a card that has a table");
  const lines = readCsv(new TextDecoder("utf-8").decode(rows.bytes))
    .map((l) => l.map((c) => c.trim()))
    .filter((l) => l.some((c) => c !== "") && !l[0].startsWith("#"));
  const heads = lines[0] ?? [];
  const wrong = heads.find((h, i) => !columns.includes(h) || heads.indexOf(h) !== i);
  if (wrong !== undefined || heads.length === 0)
    return bad(`${rows.name} heading`, "no-column", wrong ?? "nothing", `columns of the card, each once: ${columns.join(", ")}`);
  if (lines.length - 1 > mostRows) return bad(rows.name, "too-many-rows", `${lines.length - 1} rows`, `at most ${mostRows}`);
  const cells = new Map<string, string>();
  const refused: Issue[] = [];
  for (const [r, own] of lines.slice(1).entries()) {
    // which cell is which can't be told in a line that has more than its heading
    if (own.length > heads.length) refused.push(...bad(`row ${r + 1}`, "too-many-cells", own.join(", "), heads.join(", ")).issues);
    else for (const [i, text] of own.entries()) if (text !== "") cells.set(`row ${r + 1}: ${heads[i]}`, text);
  }
  return good({ cells, refused });
}
