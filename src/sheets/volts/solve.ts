import { meterReads, nodeVolts } from "../../physics/meter-load";
import { type Cell, cell } from "../../set/columns";
import { meterOhm, meterShareOf, rangeFor } from "../../standards/meters";
import { type ChartRow, chartMeterOhm, chartRow, rangeOf } from "../inputs/chart";
import type { Asked } from "./ask";
import { mostVolts, triedOhms } from "./node-ohms";

export const wrongVerdicts = ["of the wrong sign", "positive", "negative", "low", "high"] as const;
export type Verdict = "as it should be" | "cannot judge" | (typeof wrongVerdicts)[number];
export interface Judged {
  readonly row: number;
  readonly socket: Cell;
  readonly pin: Cell;
  readonly electrode: ChartRow["electrode"];
  readonly chart: number;
  readonly measured: number;
  /** what a sound node would read on this meter at this line, V, between two where its resistance is not known; nothing where it can't be worked out */
  readonly due: { readonly low: number; readonly high: number } | undefined;
  /** whether the range of the meter would narrow it */
  readonly needsRange: boolean;
  /** relative */
  readonly tolerance: number;
  readonly verdict: Verdict;
}

/** Tolerance of a node by what it is. Common practice, no source. */
const toleranceOf = (x: Asked, electrode: ChartRow["electrode"]): number =>
  electrode === "heater" || electrode === "B+"
    ? x.supplyTolerance
    : electrode === "cathode" || electrode === "grid" || electrode === "AVC"
      ? x.tubeTolerance
      : x.partTolerance;

/**
 * What a sound node reads on this meter at today's line, by its resistance.
 *
 * @param x inputs
 * @param chartV chart value, V
 * @param nodeOhm resistance of the node, ohm
 * @param rangeV range that this meter stands on, V; the usual one for the reading where not told
 * @param rowMeterOhm what another meter puts across the node, ohm
 * @returns V
 * @source voltage divider of node and meter, physics/meter-load.ts
 */
export function expectedReading(x: Asked, chartV: number, nodeOhm: number, rangeV?: number, rowMeterOhm?: number): number {
  const own = nodeVolts(chartV, nodeOhm, chartMeterOhm(x.chartMeter, chartV, x.chartRange));
  const now = (own * x.lineVoltage) / x.chartLine;
  return meterReads(now, nodeOhm, rowMeterOhm ?? meterOhm(x.meter, now, rangeV));
}
/** A figure near nothing is judged in tenths of a volt, not in percent. */
const nearNothingV = 0.2;
/** A grid that the chart has at nothing stands so much negative by contact potential alone, behind a leak of 10 MΩ most of all. Common practice, no source. */
const contactV = 1;
function verdictOf(electrode: ChartRow["electrode"], measured: number, due: number, tolerance: number): Verdict {
  if (electrode === "grid" && Math.abs(due) <= nearNothingV && measured <= 0 && measured >= -contactV) return "as it should be";
  if (Math.abs(measured - due) <= Math.max(tolerance * Math.abs(due), nearNothingV)) return "as it should be";
  if (Math.abs(due) <= nearNothingV) return measured > 0 ? "positive" : "negative";
  if (measured * due < 0 && Math.abs(measured) > nearNothingV) return "of the wrong sign";
  return Math.abs(measured) > Math.abs(due) ? "high" : "low";
}

/** Rows of the chart by their cells, numbered as they are shown. Source: house rule. */
export const rowsOf = (x: Asked): readonly (ChartRow & { readonly row: number })[] =>
  x.chart.map((r, i) => ({ ...chartRow(r), row: i + 1 }));

/**
 * Every row of the chart, judged as this meter sees it.
 *
 * @param x inputs, SI
 * @returns one a row that has both a chart value and a reading, zero among them
 * @source Thevenin, both ways; line scaling proportional, common practice
 */
export function judgeChart(x: Asked): Judged[] {
  const rows = rowsOf(x);
  const fed = rows.flatMap((r) => (r.electrode === "B+" ? (r.chart ?? []) : []));
  const highest = fed.length > 0 ? Math.max(...fed) : undefined;
  return rows.flatMap((r) => {
    const { chart, measured, electrode } = r;
    if (chart === undefined || measured === undefined) return [];
    const range = rangeOf(r) ?? rangeFor(measured);
    const most = mostVolts(r, highest);
    // a resistance that would put the node above what the set has is none that it can have
    const tried = triedOhms(r).filter((ohm) => Math.abs(nodeVolts(chart, ohm, chartMeterOhm(x.chartMeter, chart, x.chartRange))) <= most);
    const then = r.line === undefined ? x : { ...x, lineVoltage: r.line };
    const expected = tried.map((ohm) => expectedReading(then, chart, ohm, range, r.meterOhm));
    const tolerance = Math.hypot(toleranceOf(x, electrode), 2 * meterShareOf(x.meter), 2 * meterShareOf(x.chartMeter));
    const each = expected.map((v) => verdictOf(electrode, measured, v, tolerance));
    const verdict = each.length > 0 && each.every((v) => v === each[0]) ? each[0] : "cannot judge";
    return [
      {
        row: r.row,
        socket: r.socket,
        pin: r.pin,
        electrode,
        chart,
        measured,
        due: expected.length > 0 ? { low: Math.min(...expected), high: Math.max(...expected) } : undefined,
        needsRange:
          r.meterOhm === undefined && rangeOf(r) === undefined && meterOhm(x.meter, measured, 2.5) !== meterOhm(x.meter, measured, 1000),
        tolerance,
        verdict,
      },
    ];
  });
}

/** Plates, screens and B+ that are up or down together, as a ratio to what they should read. */
export interface Together {
  readonly rows: readonly number[];
  readonly ratio: number;
  readonly low: number;
  readonly high: number;
  /** the heaters over theirs, where they were read */
  readonly heaters: Cell;
  readonly points: "line" | "B+" | "not known";
}
/** Least common departure that is said, and how close to each other the ones that share it are. Common practice, no source. */
const [leastTogether, closeTogether] = [0.05, 0.08] as const;
const median = (v: readonly number[]): number => [...v].sort((a, b) => a - b)[Math.floor((v.length - 1) / 2)];

/**
 * Whether the volts of the supply's nodes are all up, or all down, by about the same part: that is the line or B+ before it is a fault of a stage.
 *
 * @param all the rows as judged
 * @returns the common ratio and what it points to; undefined where they don't go together
 * @source common practice, no source
 */
export function allTogether(all: readonly Judged[]): Together | undefined {
  const ratio = (j: Judged): number => j.measured / (((j.due?.low ?? 0) + (j.due?.high ?? 0)) / 2);
  // a node whose expected volts are known within the closeness, and that is no dead one
  const fed = all.filter(
    (j) => ["B+", "plate", "screen"].includes(j.electrode) && j.due && j.due.low > 10 && j.due.high < 1.16 * j.due.low && ratio(j) > 0.2,
  );
  if (fed.length < 3) return undefined;
  const middle = median(fed.map(ratio));
  const own = fed.filter((j) => Math.abs(Math.log(ratio(j) / middle)) < closeTogether);
  if (own.length < 3 || own.length < 0.7 * fed.length || Math.abs(middle - 1) < leastTogether) return undefined;
  const hot = all.filter((j) => j.electrode === "heater" && j.due && j.due.low !== 0);
  const heaters = hot.length > 0 ? median(hot.map(ratio)) : undefined;
  const ratios = own.map(ratio);
  return {
    rows: own.map((j) => j.row),
    ratio: middle,
    low: Math.min(...ratios),
    high: Math.max(...ratios),
    heaters,
    points:
      heaters === undefined
        ? "not known"
        : (heaters - 1) * (middle - 1) > 0 && Math.abs(heaters - 1) > 0.5 * Math.abs(middle - 1)
          ? "line"
          : "B+",
  };
}

/** A row of the resistance chart as judged. */
export interface JudgedOhms {
  readonly row: number;
  readonly socket: Cell;
  readonly pin: Cell;
  readonly chart: number;
  readonly measured: number;
  readonly verdict: "as it should be" | "high" | "low";
}
/**
 * The resistance chart, 20 % either way. In the circuit a part never reads more than it is: other paths only lower it.
 *
 * @param x inputs, ohm
 * @returns one a row that has both a chart value and a reading
 * @source common practice, no source
 */
export const judgeResistances = (x: Asked): readonly JudgedOhms[] =>
  x.resistances.flatMap((r, i) => {
    const [chart, measured] = [cell(r.chart), cell(r.measured)];
    if (chart === undefined || measured === undefined) return [];
    const verdict = Math.abs(measured - chart) <= Math.max(0.2 * chart, 2) ? "as it should be" : measured > chart ? "high" : "low";
    return [{ row: i + 1, socket: cell(r.socket), pin: cell(r.pin), chart, measured, verdict } as const];
  });
/**
 * Departure of a reading from what it should be, as part of that.
 *
 * @param j the reading as judged, V
 * @returns ratio less one; 0 where nothing can be expected
 * @source derived
 */
export function offOf({ due, measured }: Judged): number {
  if (!due) return 0;
  const near = Math.min(Math.max(measured, due.low), due.high);
  return near === 0 ? 0 : Math.abs(measured / near - 1);
}
/**
 * Rows that are wrong by themselves: not those that only follow all the others.
 *
 * @param all rows as judged
 * @param t what goes together, if anything does
 * @returns the gravest first
 * @source house rule
 */
export const wrongOf = (all: readonly Judged[], t: Together | undefined): readonly Judged[] =>
  wrongVerdicts.flatMap((v) => all.filter((j) => j.verdict === v && !(t?.rows.includes(j.row) && j.electrode !== "B+")));
