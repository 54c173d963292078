import { mendedIn } from "../sheets/inputs/card-rows";
import { parseQuantity } from "../units/parse";
import { printValue } from "../units/print";
import { type CardRow, cardRows } from "./cards";
import type { EntryOf } from "./document";
import type { JobView } from "./fold";
import { withLinesThen } from "./line-then";
import { partKindById } from "./mending/kinds";

/** Surveys that list capacitors: the set's own, and its accessories'. */
const surveys = ["capacitors", "accessory-capacitors"] as const;
type Part = EntryOf<"part">;

const plain = (said: string): string => said.replace(/[\s-]+/g, "").toUpperCase();
/** Duties that a part of a kind can have; any, where it may have several. */
const dutyOf: Readonly<Record<string, RegExp>> = {
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
function isOfMarking(cells: CardRow["cells"], part: Part): boolean {
  const marked = part.out.value?.value;
  const written = parseQuantity(cells.Value ?? "", "capacitance", "Value");
  return marked !== undefined && written.ok && Math.abs(written.value.value / marked - 1) <= sameMarking;
}

/** When the row was last written, by the place of the entry among those in force. */
function writtenAt(view: JobView, survey: string, row: number): number {
  return view.inForce.findLastIndex(
    (e) => e.kind === "form" && e.form === survey && Object.keys(e.fields).some((k) => k.startsWith(`row ${row}: `)),
  );
}

/** The row of a survey that a part was on: by its name, else by duty and marking; of several alike the first that is still in, since the list counts them. */
function rowOf(view: JobView, survey: string, rows: readonly CardRow[], part: Part): CardRow | undefined {
  const here = rows.filter((r) => isThere(view, survey, r, part.place));
  const label = plain(part.label);
  const named = label === "" ? undefined : here.find((r) => plain(r.cells.Part ?? "") === label);
  if (named) return named;
  const duty = dutyOf[part.part] ?? /^/;
  const isOfDuty = (r: CardRow): boolean => duty.test((r.cells.Duty ?? "").trim());
  const like = here.filter((r) => (label === "" || plain(r.cells.Part ?? "") === "") && isOfDuty(r) && isOfMarking(r.cells, part));
  if (like.length > 0) return like.length === 1 || label === "" ? like[0] : undefined;
  // a part whose marking nobody could read: the only one of its duty
  const ofDuty = part.out.value === undefined ? here.filter((r) => plain(r.cells.Part ?? "") === "" && isOfDuty(r)) : [];
  return label === "" && ofDuty.length === 1 ? ofDuty[0] : undefined;
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
  const out = new Map<number, CardRow["cells"]>();
  view.inForce.forEach((e, at) => {
    if (e.kind !== "part" || partKindById(e.part)?.value !== "capacitance") return;
    const open = rows.filter((r) => writtenAt(view, survey, r.number) < at);
    const row = rowOf(view, survey, open, e);
    if (row) out.set(row.number, renewed(row.cells, e));
  });
  return rows.map((r) => out.get(r.number) ?? r.cells);
}
