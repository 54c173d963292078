import { chart } from "../../set/addresses/chart";
import { line } from "../../set/addresses/power";
import type { Bench } from "../../set/bench";
import type { Cell } from "../../set/columns";
import { exact, type Quantity, tolerance } from "../../units/quantity";
import { lineToday } from "./line-now";

/** The one range that a meter stood at, as a person writes it: on the 250 V range. */
const rangePattern = /(\d+(?:[.,]\d+)?)\s*V(?:olts?)?[\s-]+(?:range|scale)|(?:range|scale)\s*(?:of\s*)?(\d+(?:[.,]\d+)?)\s*V/i;
/**
 * The range that the whole chart was taken on.
 *
 * @param bench where it is stored, or stands on the card
 * @returns V; undefined where none is stated
 * @source house frame
 */
export function chartRangeOf(bench: Bench): Quantity | undefined {
  const hit = rangePattern.exec(bench.cardField("voltage-chart", "Chart's meter and line") ?? "");
  const volts = Number((hit?.[1] ?? hit?.[2] ?? "").replace(",", "."));
  return (
    bench.quantity(chart.chartRange.address) ??
    (volts > 0 ? { value: volts, spread: exact, origin: "stated", source: "the voltage chart's card" } : undefined)
  );
}
function lineIn(said: string): number | undefined {
  const text = said.replace(rangePattern, "");
  const volts = Number(
    (/(\d+(?:[.,]\d+)?)\s*V\b(?!\/)/i.exec(text)?.[1] ?? /^\s*(\d+(?:[.,]\d+)?)\s*$/.exec(text)?.[1] ?? "").replace(",", "."),
  );
  return volts >= 50 && volts <= 300 ? volts : undefined;
}
/** The line in a cell as a bare figure, V; nothing where there is none. Source: house format. */
export const lineWords = (said: string): string => String(lineIn(said) ?? "");
/**
 * The volts of the line in a field of the voltage chart's card: the figure that stands with a V, or alone.
 *
 * @param bench where the card is
 * @param field of the card
 * @returns V, 50 to 300; undefined where there is none
 * @source house frame
 */
export function onChartCard(bench: Bench, field: string): Quantity | undefined {
  const volts = lineIn(bench.cardField("voltage-chart", field) ?? "");
  return volts !== undefined
    ? { value: volts, spread: tolerance(0.01 * volts), origin: "measured", source: "the voltage chart's card" }
    : undefined;
}
const lineNowOf = (bench: Bench): Quantity | undefined => lineToday(bench) ?? onChartCard(bench, "Line volts");
/**
 * Line volts of today over those of the chart.
 *
 * @param bench the set
 * @returns ratio; 1 where either is not written
 * @source derived
 */
export function lineRatioOf(bench: Bench): number {
  const now = lineNowOf(bench);
  const then =
    bench.quantity(chart.chartLine.address) ?? onChartCard(bench, "Chart's meter and line") ?? bench.quantity(line.voltage.address);
  return now && then ? now.value / then.value : 1;
}
/**
 * What volts that were read at another line would have been at the line now: all of a set's volts go with it.
 *
 * @param bench the set
 * @param r the reading's row
 * @returns factor; 1 where either line is not known
 * @source line scaling proportional, common practice
 */
export function toLineNow(bench: Bench, { line: then }: { readonly line: Cell }): number {
  const now = lineNowOf(bench)?.value;
  return now === undefined || then === undefined ? 1 : now / then;
}
