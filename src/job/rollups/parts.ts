import type { Part } from "../../sheets/contract";
import { csvCell } from "../../units/csv";

/** A line of the shopping list: a part, and the questions whose answers ask for it. */
export interface PartLine extends Part {
  readonly from: readonly string[];
}

/**
 * The shopping list of a job: the parts that its answers ask for, like ones together.
 *
 * @param answers title of the question, and what its answer takes to buy
 * @returns lines in the order in which the questions ask
 * @source house frame
 */
export function partsOf(answers: readonly { readonly title: string; readonly parts: readonly Part[] }[]): PartLine[] {
  const out: PartLine[] = [];
  for (const { title, parts } of answers)
    for (const p of parts) {
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
