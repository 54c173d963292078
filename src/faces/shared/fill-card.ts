import { cardIssues, writtenOn } from "../../job/cards";
import type { Entry } from "../../job/document";
import { formById, forms } from "../../job/forms";
import type { JobView } from "../../job/view";
import type { Stamp } from "../../job/works";
import { bad, good, type Read } from "../../units/issue";

/** A line of CSV: cells between commas, quoted where they hold one. Source: RFC 4180. */
function cellsOf(line: string): string[] {
  const out: string[] = [];
  for (const m of line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g))
    out.push((m[1] !== undefined ? m[1].replace(/""/g, '"') : m[2]).trim());
  return out;
}

/**
 * A record card as an entry: what was written before, with these fields and these rows of its table.
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
  const known = (name: string): boolean =>
    form.fields.includes(name) ||
    (form.earlier ?? []).includes(name) ||
    columns.some((c) => /^row \d{1,3}: /.test(name) && name.endsWith(`: ${c}`));
  const strange = Object.keys(fields).find((f) => !known(f));
  if (strange !== undefined)
    return bad(strange, "no-field", strange, `one of ${[...form.fields, ...columns.map((c) => `row 1: ${c}`)].join(", ")}`);
  const cells: Record<string, string> = {};
  if (rows) {
    if (columns.length === 0) return bad(rows.name, "no-table", card, "a card that has a table");
    const lines = new TextDecoder("utf-8")
      .decode(rows.bytes)
      .split(/\r?\n/)
      .filter((l) => l.trim() !== "" && !l.startsWith("#"));
    const heads = cellsOf(lines[0] ?? "");
    const wrong = heads.find((h) => !columns.includes(h));
    if (wrong !== undefined || heads.length === 0)
      return bad(`${rows.name} heading`, "no-column", wrong ?? "nothing", `columns of the card: ${columns.join(", ")}`);
    for (const [r, line] of lines.slice(1).entries()) {
      const own = cellsOf(line);
      if (own.length > heads.length) return bad(`${rows.name} line ${r + 2}`, "too-many-cells", line, heads.join(", "));
      own.forEach((text, i) => {
        if (text !== "") cells[`row ${r + 1}: ${heads[i]}`] = text;
      });
    }
  }
  // rows from a file take the place of the whole table; a field emptied is taken away
  const before = Object.entries(writtenOn(view, card)).filter(([k]) => !rows || !/^row \d+: /.test(k));
  const written = Object.fromEntries(
    Object.entries({ ...Object.fromEntries(before), ...cells, ...fields }).filter(([, text]) => text !== ""),
  );
  const issues = cardIssues(card, written);
  if (issues.length > 0) return { ok: false, issues };
  return good({
    id: stamp.newId(),
    at: stamp.at,
    who: stamp.who,
    kind: "form",
    form: card,
    fields: written,
  });
}
