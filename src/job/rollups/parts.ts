import type { Part } from "../../ask/findings";
import { csvCell } from "../../units/csv-cell";
import { rowsOn } from "../cards";
import type { JobView } from "../view";

/** A line of the shopping list: a part, and the questions whose answers ask for it. */
export interface PartLine extends Part {
  readonly from: readonly string[];
}

const names = (text: string): readonly string[] =>
  (text.toUpperCase().match(/\b[A-Z]{1,2} ?\d+[A-Z]?\b/g) ?? []).map((n) => n.replace(" ", ""));

/**
 * Parts that are in already: those that were mended, those that the card of parts replaced gives a new value, and those that a work of replacing names.
 *
 * @param view the job
 * @returns names as on the diagram, such as C14
 * @source house frame
 */
export const replacedIn = (view: JobView): ReadonlySet<string> =>
  new Set([
    ...rowsOn(view, "parts").flatMap((r) => (r["New value and rating"]?.trim() ? names(r.Part ?? "") : [])),
    ...view.inForce.flatMap((e) => (e.kind === "part" ? names(e.label) : [])),
    ...view.works.flatMap((w) => (w.work.endsWith("-replaced") ? names(w.note) : [])),
  ]);

/**
 * The shopping list of a job: the parts that its answers ask for, like ones together.
 *
 * @param answers title of the question, and what its answer takes to buy
 * @param replaced names of parts that are in already: they are not asked for again
 * @returns lines in the order in which the questions ask
 * @source house frame
 */
export function partsOf(
  answers: readonly { readonly title: string; readonly parts: readonly Part[] }[],
  replaced: ReadonlySet<string> = new Set(),
): PartLine[] {
  const out: PartLine[] = [];
  for (const { title, parts } of answers)
    for (const p of parts) {
      if (p.name !== undefined && replaced.has(p.name)) continue;
      const like = out.findIndex((o) => (["part", "was", "value", "rating", "kind"] as const).every((k) => o[k] === p[k]));
      // two questions that ask for one part ask for it once; one question that asks twice asks for two
      if (like < 0) out.push({ ...p, from: [title] });
      else if (out[like].from.includes(title)) out[like] = { ...out[like], quantity: out[like].quantity + p.quantity };
      else out[like] = { ...out[like], from: [...out[like].from, title] };
    }
  return out;
}

export const partHeads = ["Part", "Old one, as marked", "Value", "Rating", "Class or kind", "Quantity", "Why", "Asked for by"] as const;
export const partCells = (p: PartLine): readonly (string | number)[] => [
  p.part,
  p.was,
  p.value,
  p.rating,
  p.kind,
  p.quantity,
  p.why,
  p.from.join("; "),
];

/** The list as CSV. Source: RFC 4180. */
export const partsCsv = (lines: readonly PartLine[]): string =>
  [[...partHeads], ...lines.map((l) => [...partCells(l)])]
    .map((r) => r.map((c) => csvCell(String(c))).join(","))
    .join("\r\n")
    .concat("\r\n");
