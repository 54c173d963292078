import { stored } from "../../ask/stored";
import { chart } from "../../set/addresses/chart";
import { line } from "../../set/addresses/power";
import type { Bench } from "../../set/bench";
import { socketNumber } from "../../set/sockets";
import { meterKindFrom, meterShareOf } from "../../standards/meters";
import { exact, type Quantity, tolerance } from "../../units/quantity";
import { type ChartRow, chartMeterInput, chartOnCard, chartRow } from "./chart";
import { onChartCard, toLineNow } from "./chart-line";

/** The voltage chart's row of B+ at the rectifier, which is that of the first filter capacitor; B+ at another tube is another point of it. */
function rectifierRow(bench: Bench): ChartRow | undefined {
  const sockets = bench
    .tubes()
    .filter((t) => bench.choice(`stages.${t.stage}.kind`) === "supply" && !/regulat/i.test(t.function))
    .map((t) => socketNumber(t.socket));
  const rows = chartOnCard(bench).rows.map(chartRow);
  return rows.find((r) => r.electrode === "B+" && sockets.includes(r.socket));
}
const card = "the voltage chart's card, B+ at the rectifier";
/** B+ on the first filter capacitor as the service chart gives it. */
function chartedFirst(b: Bench): Quantity | undefined {
  const v = rectifierRow(b)?.chart;
  return v !== undefined && v > 0 ? { value: v, spread: exact, origin: "stated", source: card } : undefined;
}
/**
 * B+ on the first filter capacitor as it was read into the voltage chart, put to the line now where it was read at another.
 *
 * @param b the set
 * @returns V with the doubt of the meter that the card names
 * @source meters.ts
 */
export function readFirst(b: Bench): Quantity | undefined {
  const row = rectifierRow(b);
  const v = row?.measured === undefined ? undefined : row.measured * toLineNow(b, row);
  const share = meterShareOf(meterKindFrom(b.cardField("voltage-chart", "Meter") ?? "") ?? "");
  return v === undefined ? undefined : { value: v, spread: tolerance(share * v), origin: "measured", source: card };
}
/** What the service chart says of B+, at which line, how closely a sound set keeps to it, and the meter that it was taken with. */
export const supplyChartInputs = {
  chartFirst: stored(chart.chartFirst, { from: chartedFirst, optional: true }),
  chartLine: stored(chart.chartLine, { from: (b) => onChartCard(b, "Chart's meter and line") ?? b.quantity(line.voltage.address) }),
  chartMeter: chartMeterInput,
  chartTolerance: stored(chart.supplyTolerance),
} as const;
