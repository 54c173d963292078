import { mendedIn } from "../sheets/inputs/card-rows";
import { parseQuantity } from "../units/parse";
import { printValue } from "../units/print";
import { type CardRow, cardRows } from "./cards";
import type { EntryOf } from "./document";
import type { JobView } from "./fold";
import { withLinesThen } from "./line-then";
import { partKindById } from "./mending/kinds";
import { ofKind, onCard, placeIn } from "./place-in";

/** Surveys that list capacitors: the set's own, and its accessories'. */
const surveys = ["capacitors", "accessory-capacitors"] as const;
type Part = EntryOf<"part">;
type PartSaid = Pick<Part, "part" | "place" | "label" | "out">;

const plain = (said: string): string => said.replace(/[\s-]+/g, "").toUpperCase();
/** Duties that a part of a kind can have; any, where it may have several. */
const dutyOf: Readonly<Record<string, RegExp>> = {
  "bypass-capacitor": /bypass|screen|cathode|decoupl|filter/i,
  "coupling-capacitor": /^(?:output )?coupling/i,
  "line-capacitor": /^line/i,
  "antenna-capacitor": /^antenna/i,
  "series-capacitor": /^series/i,
};
/** How near a value on a card is to that of the part, where both are of one marking. */
const sameMarking = 0.01;

/** Whether a row of a survey is of the place at which a part was changed. */
function isThere(view: JobView, survey: string, { cells }: CardRow, place: string): boolean {
  const f = view.set.fittings.find((x) => `fittings.${x.id}` === place);
  if ((survey === "accessory-capacitors") !== (f !== undefined)) return false;
  const said = plain(cells.Accessory ?? "");
  return f === undefined || said === "" || [f.label, f.kind, f.id].some((n) => plain(n) === said);
}
function isOfMarking(cells: CardRow["cells"], part: PartSaid): boolean {
  const marked = part.out.value?.value;
  const written = parseQuantity(cells.Value ?? "", "capacitance", "Value");
  return marked !== undefined && written.ok && Math.abs(written.value.value / marked - 1) <= sameMarking;
}

/** When the row was last written, by the place of the entry among those in force. */
function writtenAt(view: JobView, survey: string, row: number): number {
  const last = onCard(view.inForce, survey).findLast((e) => Object.keys(e.fields).some((k) => k.startsWith(`row ${row}: `)));
  return placeIn(view.inForce, last?.id);
}

/** The rows of a survey that a part may have been on: by its name, else of its duty and marking, else, where nobody could read a marking, of its duty. */
function rowsFor(view: JobView, survey: string, rows: readonly CardRow[], part: PartSaid): readonly CardRow[] {
  const here = rows.filter((r) => isThere(view, survey, r, part.place));
  const label = plain(part.label);
  const named = label === "" ? undefined : here.find((r) => [r.cells.Part, r.cells.Duty].some((t) => plain(t ?? "") === label));
  if (named) return [named];
  const duty = dutyOf[part.part] ?? /^/;
  const own = here.filter((r) => (label === "" || plain(r.cells.Part ?? "") === "") && duty.test((r.cells.Duty ?? "").trim()));
  const like = own.filter((r) => isOfMarking(r.cells, part));
  return like.length > 0 || part.out.value !== undefined ? like : own;
}
const alike = (a: CardRow["cells"], b: CardRow["cells"]): boolean =>
  ["Accessory", "Kind", "Duty", "Value", "Rated V"].every((c) => plain(a[c] ?? "") === plain(b[c] ?? ""));
/** The row that a part was on; of several quite alike the first, since what is left to buy is the same. */
function rowOf(view: JobView, survey: string, rows: readonly CardRow[], part: PartSaid): CardRow | undefined {
  const fits = rowsFor(view, survey, rows, part);
  return fits.every((r) => alike(r.cells, fits[0].cells)) ? fits[0] : undefined;
}
/** Rows that no mend since has renewed, and those that one has. */
function renewedRows(
  view: JobView,
  survey: string,
): { readonly open: readonly CardRow[]; readonly out: ReadonlyMap<number, CardRow["cells"]> } {
  const rows = cardRows(view, survey);
  const out = new Map<number, CardRow["cells"]>();
  for (const e of ofKind(view.inForce, "part")) {
    if (partKindById(e.part)?.value !== "capacitance") continue;
    const at = placeIn(view.inForce, e.id);
    const row = rowOf(
      view,
      survey,
      rows.filter((r) => writtenAt(view, survey, r.number) < at && !out.has(r.number)),
      e,
    );
    if (row) out.set(row.number, renewed(row.cells, e));
  }
  return { open: rows.filter((r) => !out.has(r.number)), out };
}
/**
 * Rows of the surveys among which a part without a name can't be told.
 *
 * @param view the job
 * @param part as it is going to be recorded
 * @returns their names, or what they do; none where it is the only one, or all are alike
 * @source house frame
 */
export function rowsInDoubt(view: JobView, part: PartSaid): readonly string[] {
  if (partKindById(part.part)?.value !== "capacitance") return [];
  return surveys.flatMap((survey) => {
    const { open } = renewedRows(view, survey);
    return rowOf(view, survey, open, part)
      ? []
      : rowsFor(view, survey, open, part).map(({ cells }) => cells.Part?.trim() || (cells.Duty ?? ""));
  });
}
/** A row as the new part stands there: what nobody has measured of it is blank. */
const renewed = (cells: CardRow["cells"], { came }: Part): CardRow["cells"] => ({
  ...cells,
  Kind: /paper/i.test(cells.Kind ?? "") ? "film" : (cells.Kind ?? ""),
  Value: came?.value ? printValue(came.value.value, "capacitance") : "",
  "Measured value": came?.measured ? printValue(came.measured.value, "capacitance") : "",
  "Rated V": came?.rated ? printValue(came.rated.value, "voltage") : "",
  "Leakage mA": "",
  [mendedIn]: "yes",
});

/**
 * Rows of a survey of capacitors as the parts that were changed since have left them: the old part's row holds the new one, and says so. Rows of the
 * voltage chart say at which line they were read.
 *
 * @param view the job
 * @param survey id of the card
 * @returns the rows of any other card as they are
 * @source house frame
 */
export function rowsAsMended(view: JobView, survey: string): readonly CardRow["cells"][] {
  const rows = cardRows(view, survey);
  if (survey === "voltage-chart") return withLinesThen(view, rows);
  if (!surveys.some((s) => s === survey)) return rows.map((r) => r.cells);
  const { out } = renewedRows(view, survey);
  return rows.map((r) => out.get(r.number) ?? r.cells);
}
