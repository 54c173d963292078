import { cardIssues, writingOn } from "../../job/cards";
import type { Entry } from "../../job/document";
import { type Form, formById, forms, hasField, mostRows, rowOfField } from "../../job/forms";
import type { JobView } from "../../job/view";
import type { Stamp } from "../../job/works";
import { readCsv } from "../../units/csv";
import { bad, good, type Read } from "../../units/issue";

/**
 * What is written on a record card, as an entry: these fields, and these rows in the place of its whole table; nothing else of the card is touched.
 * What stands there already is not written twice, unless work has touched a step of the card since: then the same value, typed again, is a new one.
 *
 * @param view the job
 * @param card its id
 * @param fields field to text; `row 1: Tube` for a cell
 * @param rows a CSV file headed by the card's own columns
 * @returns the entry, or what is wrong, at its place
 */
export function fillCard(
  view: JobView,
  card: string,
  fields: Readonly<Record<string, string>>,
  rows: { readonly name: string; readonly bytes: Uint8Array } | undefined,
  stamp: Stamp,
): Read<Entry> {
  const form = formById(card);
  if (!form) return bad("card", "no-card", card, `one of ${forms.map((f) => f.id).join(", ")}`);
  const columns = form.columns ?? [];
  const strange = Object.keys(fields).find((f) => !hasField(form, f));
  if (strange !== undefined)
    return bad(strange, "no-field", strange, `one of ${[...form.fields, ...columns.map((c) => `row 1: ${c}`)].join(", ")}`);
  const cells = rows ? cellsFrom(rows, card, columns) : good(new Map<string, string>());
  if (!cells.ok) return cells;
  const before = writingOn(view, card);
  const old = beforeWork(view, form);
  // rows from a file take the place of the whole table: a cell that they leave out is emptied
  const emptied = rows ? [...before.keys()].filter((k) => rowOfField(k) !== undefined).map((k) => [k, ""] as const) : [];
  const wanted = new Map([...emptied, ...cells.value, ...Object.entries(fields)]);
  const changed = Object.fromEntries(
    [...wanted].filter(([k, text]) => text !== (before.get(k)?.text ?? "") || (k in fields && old.has(before.get(k)?.entry ?? ""))),
  );
  if (Object.keys(changed).length === 0)
    return bad(
      "card",
      "nothing-new",
      card,
      `a field with something new in it, such as "${form.fields[0] ?? `row 1: ${form.columns?.[0]}`}=…"`,
    );
  const issues = cardIssues(card, changed);
  if (issues.length > 0) return { ok: false, issues };
  return good({ id: stamp.newId(), at: stamp.at, who: stamp.who, kind: "form", form: card, fields: changed });
}

/** Entries from before the last work in force that made a step of a card due again. */
function beforeWork(view: JobView, form: Form): ReadonlySet<string> {
  const last = view.inForce.findLastIndex((e) => e.kind === "work" && e.makes.some((d) => form.steps.includes(d.target)));
  return new Set(view.inForce.slice(0, Math.max(0, last)).map((e) => e.id));
}

/** Cells of a table from a CSV file that is headed by the card's own columns, by field. */
function cellsFrom(
  rows: { readonly name: string; readonly bytes: Uint8Array },
  card: string,
  columns: readonly string[],
): Read<Map<string, string>> {
  if (columns.length === 0) return bad(rows.name, "no-table", card, "a card that has a table");
  const lines = readCsv(new TextDecoder("utf-8").decode(rows.bytes))
    .map((l) => l.map((c) => c.trim()))
    .filter((l) => l.some((c) => c !== "") && !l[0].startsWith("#"));
  const heads = lines[0] ?? [];
  const wrong = heads.find((h, i) => !columns.includes(h) || heads.indexOf(h) !== i);
  if (wrong !== undefined || heads.length === 0)
    return bad(`${rows.name} heading`, "no-column", wrong ?? "nothing", `columns of the card, each once: ${columns.join(", ")}`);
  if (lines.length - 1 > mostRows) return bad(rows.name, "too-many-rows", `${lines.length - 1} rows`, `at most ${mostRows}`);
  const out = new Map<string, string>();
  for (const [r, own] of lines.slice(1).entries()) {
    if (own.length > heads.length) return bad(`${rows.name} row ${r + 1}`, "too-many-cells", own.join(", "), heads.join(", "));
    for (const [i, text] of own.entries()) if (text !== "") out.set(`row ${r + 1}: ${heads[i]}`, text);
  }
  return good(out);
}
