import type { Volts } from "../../ask/drawn/circuit";
import { chart } from "../../set/addresses/chart";
import type { Bench } from "../../set/bench";
import { socketNumber } from "../../set/sockets";
import { type ChartRow, chartOnCard, chartRow } from "./chart";

/** A tube of the set as a drawing names it. */
export interface TubeHere {
  readonly socket: string;
  readonly type: string;
  readonly function: string;
}
/**
 * The tube of the first stage of a kind, as the set is described.
 *
 * @param bench the set
 * @param kind of stage, such as `mixer`
 * @returns the tube; undefined where none is described
 * @source house frame
 */
export const tubeOfKind = (bench: Bench, kind: string): TubeHere | undefined =>
  bench.tubes().find((t) => bench.choice(`stages.${t.stage}.kind`) === kind);

/** What charts of the era allow of an electrode's volts: what is fed, and what the tube sets. */
const toleranceOf = (electrode: ChartRow["electrode"]): number =>
  (electrode === "plate" || electrode === "screen"
    ? chart.partTolerance
    : electrode === "B+" || electrode === "heater"
      ? chart.supplyTolerance
      : chart.tubeTolerance
  ).usual![0];

/**
 * Volts of an electrode by the voltage chart's card: what the chart says with its usual tolerance, and what was read.
 *
 * @param bench where the card is
 * @param tube the tube
 * @param electrode such as `plate`
 * @returns volts; nothing where the card has no such row
 * @source chart tolerances: common practice, no source
 */
export function chartVolts(bench: Bench, tube: TubeHere | undefined, electrode: ChartRow["electrode"]): Volts | undefined {
  const socket = socketNumber(tube?.socket ?? "");
  const row = chartOnCard(bench)
    .rows.map(chartRow)
    .find(
      (r) =>
        r.socket === socket && socket !== undefined && r.electrode === electrode && (r.chart !== undefined || r.measured !== undefined),
    );
  if (!row) return undefined;
  const off = toleranceOf(electrode);
  const ends = row.chart === undefined ? undefined : [row.chart * (1 - off), row.chart * (1 + off)].sort((a, b) => a - b);
  return { ...(ends ? { expected: { low: ends[0], high: ends[1] } } : {}), ...(row.measured === undefined ? {} : { read: row.measured }) };
}
