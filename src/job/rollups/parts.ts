import type { Part } from "../../ask/findings";
import { csvCell } from "../../units/csv-cell";
import { rowsOn, writtenOn } from "../cards";
import type { EntryOf } from "../document";
import { lastReadingAt } from "../faults/proving";
import { partKindById } from "../mending/kinds";
import { ofKind, placeIn } from "../place-in";
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
    ...ofKind(view.inForce, "part").flatMap((e) => names(e.label)),
    ...view.works.flatMap((w) => (w.work.endsWith("-replaced") ? names(w.note) : [])),
  ]);

/** Whether a part that came in is the one that is asked for: of its kind, at its place, rated for it, and not read to be wrong since. */
function fillsIt(e: EntryOf<"part">, at: string, p: Part, isReadSince: boolean): boolean {
  const kind = partKindById(e.part);
  if (!e.came || !kind || e.part !== p.fills?.kind) return false;
  if (kind.where.includes("stage") && e.place !== at) return false;
  const said = [e.label, e.came.words, e.note].join(" ").toLowerCase();
  if (p.fills.word !== undefined && !said.includes(p.fills.word)) return false;
  if (p.seesBPlusRatedV !== undefined && e.came.rated !== undefined && e.came.rated.value < p.seesBPlusRatedV) return false;
  // a stage that was read since and still asks for it wants another one
  return !kind.where.includes("stage") || !isReadSince;
}
/**
 * Which parts are in already: by their names, or by their kind and place where nobody gave a name.
 *
 * @param view the job
 * @returns whether a part that a question at a place asks for is in
 * @source house frame
 */
export function partsIn(view: JobView): (at: string, p: Part) => boolean {
  const named = replacedIn(view);
  const came = ofKind(view.inForce, "part");
  const fuse = (writtenOn(view, "safety-out")["Fuse rating and type"] ?? "").trim();
  return (at, p) =>
    (p.name !== undefined && named.has(p.name)) ||
    (p.fills?.word === "fuse" && fuse !== "" && !/^none\b/i.test(fuse)) ||
    came.some((e) => fillsIt(e, at, p, lastReadingAt(view, e.place) > placeIn(view.inForce, e.id)));
}

/**
 * The shopping list of a job: the parts that its answers ask for, like ones together.
 *
 * @param answers title of the question, the place that it was asked of, and what its answer takes to buy
 * @param isIn whether a part is in already: it is not asked for again
 * @returns lines in the order in which the questions ask
 * @source house frame
 */
export function partsOf(
  answers: readonly { readonly title: string; readonly at?: string; readonly parts: readonly Part[] }[],
  isIn: (at: string, p: Part) => boolean = () => false,
): PartLine[] {
  const out: PartLine[] = [];
  for (const { title, at = "", parts } of answers)
    for (const p of parts) {
      if (isIn(at, p)) continue;
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
