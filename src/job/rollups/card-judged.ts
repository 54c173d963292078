import { expectedText } from "../../sheets/volts/findings";
import { type Judged, judgeChart, judgeResistances } from "../../sheets/volts/solve";
import { printValue } from "../../units/print";
import { lowerFirst } from "../../units/sentence";
import { cardIssues, cardRows } from "../cards";
import { chartOf, ohmsRow, placeOfSocket, rowOnCard } from "../faults/signs";
import { type Form, rowOfField } from "../forms";
import { workKindById } from "../ripple";
import { recordIssues } from "../safety-record";
import type { JobView } from "../view";
import { readAgain, worksOnRow } from "./again";

/** What one cell of a card says as it is written: by chart, meter and line, or by the limit that it must keep. */
export interface CellSaid {
  readonly verdict: "sound" | "wrong" | "open";
  readonly says: string;
  /** the place of the set that it tells of, where one is known */
  readonly place?: string;
}
type Fields = Readonly<Record<string, string>>;

/**
 * The job as if this stood on a card already. Cells that can't be read are left out: they are refused, not judged.
 *
 * @param view the job
 * @param form the card
 * @param fields text by field
 * @returns the job, one entry longer
 * @source house frame
 */
export function asIf(view: JobView, form: Form, fields: Fields): JobView {
  const refused = new Set(cardIssues(form.id, fields).map((i) => i.path));
  const legible = Object.fromEntries(Object.entries(fields).filter(([f]) => !refused.has(f)));
  const draft = { id: "draft", at: "", who: "", kind: "form" as const, form: form.id, fields: legible };
  return { ...view, inForce: [...view.inForce, draft] };
}
const percent = (j: Judged): string => `give or take ${Math.round(100 * j.tolerance)} %`;
const openSays = (j: Judged): string =>
  j.due === undefined
    ? "can't be judged: no resistance fits this node"
    : `can't be judged yet: ${expectedText(j)} by what the node's resistance is${j.needsRange ? " and by the meter's range" : ""}`;
const wrongSays = (j: Judged): string => `${j.verdict}: this meter should read ${expectedText(j)}, ${percent(j)}`;

function onVoltageChart(view: JobView): ReadonlyMap<string, CellSaid> {
  const x = chartOf(view);
  return new Map(
    (x ? judgeChart(x) : []).map((j): readonly [string, CellSaid] => {
      const verdict = j.verdict === "as it should be" ? "sound" : j.verdict === "cannot judge" ? "open" : "wrong";
      const says = verdict === "sound" ? `as it should be: ${expectedText(j)}` : verdict === "open" ? openSays(j) : wrongSays(j);
      return [`row ${rowOnCard(view, j) ?? 0}: Measured V`, { verdict, says, place: placeOfSocket(view, j.socket) }];
    }),
  );
}
function onResistanceChart(view: JobView): ReadonlyMap<string, CellSaid> {
  const x = chartOf(view);
  return new Map(
    (x ? judgeResistances(x) : []).map((o): readonly [string, CellSaid] => {
      const chart = printValue(o.chart, "resistance");
      const says =
        o.verdict === "as it should be" ? `as the chart has it: ${chart}` : `${o.verdict}: the chart has ${chart}, give or take 20 %`;
      const verdict = o.verdict === "as it should be" ? "sound" : "wrong";
      return [`row ${ohmsRow(view, o)}: Measured Ω`, { verdict, says, place: placeOfSocket(view, o.socket) }];
    }),
  );
}
/** What a safety card must keep: each field that fails, by its limit. */
function onSafetyCard(view: JobView, form: Form): ReadonlyMap<string, CellSaid> {
  const prefix = `${form.id} card, `;
  const fails = form.steps
    .flatMap((step) => recordIssues({ ...view, created: view.document.created }, step))
    .filter((i) => i.code === "fails");
  return new Map(
    fails.map(
      (i) => [i.path.slice(prefix.length), { verdict: "wrong", says: `does not do: expected ${i.expected}`, place: "line" }] as const,
    ),
  );
}
function judgedOn(view: JobView, form: Form): ReadonlyMap<string, CellSaid> {
  switch (form.id) {
    case "voltage-chart":
      return onVoltageChart(view);
    case "resistance-chart":
      return onResistanceChart(view);
    case "safety-in":
    case "first-power":
    case "safety-out":
      return onSafetyCard(view, form);
    default:
      return new Map();
  }
}

/**
 * What the cells of a card say, those among them that are only being typed.
 *
 * @param view the job
 * @param form the card
 * @param draft what is typed and not kept yet, by field
 * @returns by field; cells that can't be judged are left out, and what is older than work which can have changed it is to be read again
 * @source sheets/volts, touch-current.ts
 */
export const judgedCells = (view: JobView, form: Form, draft: Fields): ReadonlyMap<string, CellSaid> => {
  const old = [...readAgain(view, form.id)]
    .filter((field) => !(field in draft))
    .map((field) => [field, oldSays(view, form, field)] as const);
  return new Map([...judgedOn(asIf(view, form, draft), form), ...old]);
};
/** What a reading says that is older than work which can have changed it: nothing of the set as it is now. */
function oldSays(view: JobView, form: Form, field: string): CellSaid {
  const tube = cardRows(view, form.id).find((r) => r.number === rowOfField(field))?.cells.Tube ?? "";
  const work = view.inForce[worksOnRow(view, tube).at(-1) ?? -1];
  const title = work?.kind === "work" ? workKindById(work.work)?.title : undefined;
  return { verdict: "open", says: `older than the work done since${title ? ` (${lowerFirst(title)})` : ""}: read it again` };
}

/**
 * What a sound node would read, for each row of the voltage chart that has a chart value, read or not.
 *
 * @param view the job
 * @param form the card; any other has none
 * @returns text by field
 * @source sheets/volts
 */
export function expectedOnChart(view: JobView, form: Form): ReadonlyMap<string, string> {
  if (form.id !== "voltage-chart") return new Map();
  const rows = cardRows(view, form.id);
  // a reading chooses the usual range only; where none was taken the chart's own value does
  const tried = Object.fromEntries(
    rows.flatMap(({ number, cells }) =>
      (cells["Measured V"] ?? "") === "" && (cells["Chart V"] ?? "") !== "" ? [[`row ${number}: Measured V`, cells["Chart V"]]] : [],
    ),
  );
  const x = chartOf(asIf(view, form, tried));
  return new Map(
    (x ? judgeChart(x) : []).flatMap((j) => (j.due ? [[`row ${rowOnCard(view, j) ?? 0}: Measured V`, expectedText(j)] as const] : [])),
  );
}
