import { sheet } from "../../ask/contract";
import type { Table } from "../../ask/drawings";
import type { Bench } from "../../set/bench";
import { cell, type Row } from "../../set/columns";
import type { Issue } from "../../units/issue";
import { exact } from "../../units/quantity";
import { chartColumns, chartOnCard, chartRangeOf, meterInput, onChartCard, resistanceColumns, resistancesOnCard } from "../inputs/chart";
import { lineToday, lineVoltageInput } from "../inputs/supply";
import { expectedText, inside, placeOf, voltsFindings, voltsHeadline, where, wrongOf } from "./findings";
import { allTogether, type Judged, judgeChart, judgeResistances, type VoltsInputs } from "./solve";
import theory from "./theory.md";

const practice = "common practice, no source";
const tolerance = (meaning: string, value: number, source: string) =>
  ({
    kind: "quantity",
    dimension: "fraction",
    positive: true,
    max: 1,
    meaning,
    howMeasured: "chosen",
    assumed: { value, spread: exact, source },
  }) as const;
export const volts = sheet({
  id: "volts",
  version: 2,
  title: "The voltage chart, as this meter sees it",
  question: "Which of these volts are wrong, on this meter and at today's line?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["10", "09"],
  inputs: {
    chart: {
      kind: "table",
      columns: chartColumns,
      meaning: "the voltage chart and what was read",
      howMeasured:
        "meter clipped on with the set off and discharged, controls as the chart says; stand clear, switch on, read. It is typed on the record card of the voltage chart",
      from: (bench) => {
        const card = chartOnCard(bench);
        // until something was read there is nothing to judge
        return card.rows.some((r) => cell(r.measured) !== undefined) ? card : { rows: [], unread: card.unread };
      },
      assumed: {
        rows: [
          { socket: 4, pin: 5, electrode: 1, chart: 225, source: 2200, measured: 221, range: Number.NaN, duty: 1 },
          { socket: 4, pin: 6, electrode: 2, chart: 107, source: 100e3, measured: 148, range: Number.NaN, duty: 1 },
          { socket: 4, pin: 7, electrode: 3, chart: 1.1, source: 60, measured: 1.05, range: Number.NaN, duty: 1 },
        ] as Row[],
        source: "an invented chart",
      },
      mostRows: 200,
    },
    resistances: {
      kind: "table",
      columns: resistanceColumns,
      meaning: "the resistance chart and what was measured, set off",
      howMeasured:
        "set unplugged, discharged and measured; tubes in or out as the chart says; wait until the reading settles. It is typed on the record card of the resistance chart",
      from: resistancesOnCard,
      assumed: { rows: [], source: "none written yet" },
      mostRows: 200,
    },
    chartMeter: meterInput("meter that the chart was taken with", "chartMeter", "20 kΩ/V", "Chart's meter and line"),
    meter: meterInput("meter that today's volts were read with", "meter", "digital, 10 MΩ", "Meter"),
    chartRange: {
      kind: "quantity",
      dimension: "voltage",
      positive: true,
      max: 5000,
      optional: true,
      meaning: "range that the chart's meter stood at for the whole chart, where the chart states one",
      howMeasured: "printed on the chart",
      from: chartRangeOf,
      keptAt: "supplies.chartRange",
    },
    chartLine: {
      kind: "quantity",
      dimension: "voltage",
      positive: true,
      min: 50,
      max: 300,
      meaning: "line voltage of the chart",
      howMeasured: "printed on the chart",
      from: (b) => {
        const rated = b.quantity("line.voltage");
        return (
          b.quantity("supplies.chartLine") ??
          onChartCard(b, "Chart's meter and line") ??
          (rated && { ...rated, origin: "assumed", source: "the set's rated line, as on most charts" })
        );
      },
      keptAt: "supplies.chartLine",
      assumed: { value: 117, spread: exact, source: "usual on charts of the era, from memory" },
    },
    lineVoltage: {
      ...lineVoltageInput,
      from: (b: Bench) => lineToday(b) ?? onChartCard(b, "Line volts") ?? lineVoltageInput.from(b),
    },
    supplyTolerance: tolerance("tolerance of B+ and heaters", 0.1, `10 %, read for one maker's heaters, else ${practice}`),
    partTolerance: tolerance("tolerance of plates and screens", 0.2, `10 to 20 % on charts of the era, ${practice}`),
    tubeTolerance: tolerance(
      "tolerance of points set by the tube: cathodes, grids, AVC",
      0.3,
      "a commentary gives 30 % about the mean as normal for receiving tubes (read)",
    ),
  },
  observed: ["chart"],
  readAt: inside,
  first: ["lineVoltage", "chartLine", "partTolerance", "tubeTolerance", "supplyTolerance"],
  results: {
    judged: { dimension: "ratio", meaning: "readings judged", known: 3 },
    wrong: { dimension: "ratio", meaning: "readings out of tolerance", known: 3 },
    unclear: { dimension: "ratio", meaning: "readings whose node's resistance must be known before they can be judged", known: 3 },
    together: { dimension: "ratio", meaning: "plates, screens and B+ over what they should read, where all go together", known: 0.01 },
    lineRatio: { dimension: "ratio", meaning: "line now over the chart's line" },
    worstOff: { dimension: "fraction", meaning: "largest departure of a reading from what it should be", known: 0.01 },
  },
  key: ["wrong", "unclear"],
  curves: {},
  prepare: (best) => {
    const x = best as unknown as VoltsInputs;
    const issues = negativeOhms(x);
    if (issues.length > 0) return { axes: {}, solve: () => ({}) as never, issues };
    const judged = judgeChart(x);
    const together = allTogether(judged);
    return {
      axes: {},
      solve: (now) => {
        const own = now as unknown as VoltsInputs;
        // the line's doubt is in the ratio; the verdicts are of the best line
        return {
          judged: judged.length,
          wrong: wrongOf(judged, together).length,
          unclear: judged.filter((j) => j.verdict === "cannot judge").length,
          together: together ? together.ratio : { none: "plates, screens and B+ are not up or down together" },
          lineRatio: own.lineVoltage / own.chartLine,
          worstOff:
            judged.length > 0 ? judged.reduce((w, j) => Math.max(w, offOf(j)), 0) : { none: "no row has both a chart value and a reading" },
        };
      },
    };
  },
  headline: (g) => voltsHeadline(g.best as unknown as VoltsInputs),
  findings: (g) => voltsFindings(g as never) as never,
  tables: (best) => {
    const v = (name: string, u = 0.3) => ({ name, dimension: "voltage" as const, u });
    return [
      {
        id: "chart",
        title: "The chart as this meter should read it",
        columns: [
          { name: "where", dimension: "ratio" },
          v("chart"),
          { name: "should read", dimension: "ratio" },
          v("measured", 0.03),
          { name: "within", dimension: "fraction", u: 0.01 },
          { name: "verdict", dimension: "ratio" },
        ],
        rows: judgeChart(best as unknown as VoltsInputs).map((j) => [
          where(j),
          j.chart,
          expectedText(j),
          j.measured,
          j.tolerance,
          j.verdict,
        ]),
      } satisfies Table,
      ...((best as unknown as VoltsInputs).resistances.length > 0
        ? [
            {
              id: "ohms",
              title: "The resistance chart, 20 % either way",
              columns: [
                { name: "where", dimension: "ratio" },
                { name: "chart", dimension: "resistance" },
                { name: "measured", dimension: "resistance" },
                { name: "verdict", dimension: "ratio" },
              ],
              rows: judgeResistances(best as unknown as VoltsInputs).map((j) => [placeOf(j), j.chart, j.measured, j.verdict]),
            } satisfies Table,
          ]
        : []),
    ];
  },
  figures: [],
  theory,
});
/** Departure of a reading from what it should be, as part of that. */
function offOf({ due, measured }: Judged): number {
  if (!due) return 0;
  const near = Math.min(Math.max(measured, due.low), due.high);
  return near === 0 ? 0 : Math.abs(measured / near - 1);
}
/** Resistances below nothing, located. */
const negativeOhms = (x: VoltsInputs): Issue[] =>
  [
    ...x.chart.map((r, i) => [`chart row ${i + 1} source`, r.source] as const),
    ...x.resistances.flatMap((r, i) => [
      [`resistances row ${i + 1} chart`, r.chart] as const,
      [`resistances row ${i + 1} measured`, r.measured] as const,
    ]),
  ].flatMap(([path, ohm]) => (ohm < 0 ? [{ path, code: "negative", read: String(ohm), expected: "ohms, 0 or more" }] : []));
