/** A chart's points as lines of a proof: what each should read, what it read as found and as left, and how both are judged. */
import { expectedText, placeOf } from "../../sheets/volts/findings";
import { type Judged, judgeChart } from "../../sheets/volts/solve";
import { dayInWords } from "../../units/day";
import { upperFirst } from "../../units/sentence";
import { cardRows } from "../cards";
import { chartOf, rowOnCard } from "../faults/signs";
import { partKindById } from "../mending/kinds";
import { ofKind, onCard, placeIn } from "../place-in";
import { placeLabel } from "../places";
import { sittingOf } from "../sitting";
import type { JobView } from "../view";
import { worksOnRow } from "./again";
import { partSaid } from "./owner/work";
import type { ProofLine } from "./proof/line";
import { withUnit } from "./read-points";

/** One writing of a chart's cell, with what held when it was read. */
interface Writing {
  readonly text: string;
  /** place among the entries in force */
  readonly at: number;
  readonly meter: string;
  readonly line: string;
  readonly day: string;
  /** warm or cold, and who read it */
  readonly as: string;
}
interface Chart {
  readonly card: "voltage-chart" | "resistance-chart";
  readonly column: "Measured V" | "Measured Ω";
  readonly chart: "Chart V" | "Chart Ω";
}
const voltage: Chart = { card: "voltage-chart", column: "Measured V", chart: "Chart V" };
const resistance: Chart = { card: "resistance-chart", column: "Measured Ω", chart: "Chart Ω" };

/** Every writing of the cells of a column, by row, in the order in which they were read. */
function writingsOf(view: JobView, { card, column }: Chart): ReadonlyMap<number, readonly Writing[]> {
  const out = new Map<number, Writing[]>();
  const now: Record<string, string> = {};
  for (const e of onCard(view.inForce, card)) {
    const at = placeIn(view.inForce, e.id);
    Object.assign(now, e.fields);
    const sitting = sittingOf(view, e);
    for (const [field, text] of Object.entries(e.fields)) {
      const row = new RegExp(`^row (\\d+): ${column}$`).exec(field)?.[1];
      if (row === undefined || text.trim() === "") continue;
      const own = [now[`row ${row}: Meter`] || now.Meter, now[`row ${row}: Range V`] ? `${now[`row ${row}: Range V`]} V range` : ""];
      const writing = {
        text: text.trim(),
        at,
        meter: [...own, sitting?.method ?? ""].filter((t) => t).join(", "),
        line: now["Line volts"] ?? "",
        day: dayInWords(e.at),
        as: [sitting?.thermal ?? "", sitting?.initials ?? ""].filter((t) => t).join(", "),
      };
      out.set(Number(row), [...(out.get(Number(row)) ?? []), writing]);
    }
  }
  return out;
}

/** As found: the last writing before any work that came after the first one. As left: the last writing after the last work. */
function foundAndLeft(
  all: readonly Writing[],
  works: readonly number[],
): { readonly found: Writing; readonly left?: Writing; readonly stale: boolean } {
  const work = works.find((w) => w > all[0].at);
  if (work === undefined) return { found: all[all.length - 1], stale: false };
  const before = all.filter((w) => w.at < work);
  const last = all[all.length - 1];
  const stale = last.at < works[works.length - 1];
  return { found: before[before.length - 1], ...(last.at > work ? { left: last } : {}), stale };
}

/** What the judgement of a reading says once it is set beside what was found. */
function says(judged: Judged | undefined, stale: boolean, left: boolean): string {
  if (stale) return "To be read again: work was recorded since.";
  if (!judged || judged.verdict === "cannot judge") return "";
  const now = judged.verdict === "as it should be" ? "as it should be" : judged.verdict;
  return left ? `Now ${now}.` : `${upperFirst(now)}.`;
}
/** Readings as parts of what a sound node would read there: what was found with another meter or line is left out, since that was judged by itself. */
function shareOf(j: Judged | undefined, found: Writing, left: Writing | undefined): ProofLine["share"] {
  if (!j?.due) return undefined;
  const due = (j.due.low + j.due.high) / 2;
  if (due === 0) return undefined;
  if (!left) return { found: j.measured / due };
  const alike =
    found.meter === left.meter && Number.parseFloat(found.line) === Number.parseFloat(left.line) && /^[+-]?\d+(\.\d+)?$/.test(found.text);
  return { ...(alike ? { found: Number(found.text) / due } : {}), left: j.measured / due };
}
const methodOf = (...w: readonly (Writing | undefined)[]): string =>
  [...new Set(w.flatMap((x) => (x && x.meter !== "" ? [x.meter] : [])))].join(" / ");
const conditionsOf = (...w: readonly (Writing | undefined)[]): string =>
  [
    ...new Set(w.flatMap((x) => (x ? [[x.line ? `line ${withUnit(x.line, "V")}` : "", x.as, x.day].filter((t) => t).join(", ")] : []))),
  ].join(" / ");

function chartLines(view: JobView, chart: Chart): ProofLine[] {
  const writings = writingsOf(view, chart);
  const x = chart.card === "voltage-chart" ? chartOf(view) : undefined;
  const judged = new Map((x ? judgeChart(x) : []).map((j) => [rowOnCard(view, j) ?? 0, j]));
  const unit = chart === voltage ? "V" : "Ω";
  return cardRows(view, chart.card).flatMap(({ number, cells }): ProofLine[] => {
    const all = writings.get(number) ?? [];
    if (all.length === 0) return [];
    const { found, left, stale } = foundAndLeft(all, worksOnRow(view, cells.Tube ?? ""));
    const j = judged.get(number);
    const tube = view.set.tubes.find((t) => (cells.Tube ?? "").toUpperCase().startsWith(t.socket.toUpperCase()));
    const share = shareOf(j, found, left);
    const point = j
      ? `${placeOf(j)}, ${j.electrode}`
      : [cells.Tube, cells.Pin ? `pin ${cells.Pin}` : "", cells.Electrode ?? cells["To chassis or B+"]].filter((t) => t).join(", ");
    return [
      {
        figure: point,
        where: tube ? placeLabel(view.set, `stages.${tube.stage}`) : "",
        method: methodOf(found, left),
        conditions: conditionsOf(found, left),
        chart: cells[chart.chart] ? withUnit(cells[chart.chart], unit) : "",
        found: withUnit(found.text, unit),
        left: left ? withUnit(left.text, unit) : "",
        model: j?.due ? expectedText(j) : "",
        says: says(j, stale, left !== undefined),
        refused: stale,
        isOff: !stale && (j?.verdict === "low" || j?.verdict === "high"),
        before: stale,
        ...(share ? { share } : {}),
      },
    ];
  });
}

const partLines = (view: JobView): ProofLine[] =>
  ofKind(view.inForce, "part").map((e): ProofLine => {
    const kind = partKindById(e.part);
    return {
      figure: `${kind?.title ?? e.part}${e.label ? ` ${e.label}` : ""}`,
      where: placeLabel(view.set, e.place),
      method: e.came?.dress ?? "",
      conditions: dayInWords(e.at),
      found: partSaid(e.out, e.part),
      left: e.came ? partSaid(e.came, e.part) : "taken out",
      model: "",
      says: "",
      refused: false,
    };
  });

/**
 * Old and new of what was read and replaced, in the shape of the performance record: each point of the charts by the chart, as found, as left and by the
 * model, each with its meter, line and day; each part that was changed.
 *
 * @param view the job
 * @returns lines: volts, ohms, parts
 * @source house frame
 */
export const foundAndLeftOf = (view: JobView): readonly ProofLine[] => [
  ...chartLines(view, voltage),
  ...chartLines(view, resistance),
  ...partLines(view),
];
