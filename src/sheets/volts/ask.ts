import { declare, type GroundOf, type InputsOf, inside, type PutOf } from "../../ask/declare";
import { asked, stored } from "../../ask/stored";
import { chart } from "../../set/addresses/chart";
import { list } from "../../set/addresses/declare";
import { line } from "../../set/addresses/power";
import type { Bench } from "../../set/bench";
import { cell, type FromCard } from "../../set/columns";
import type { Quantity } from "../../units/quantity";
import { chartColumns, chartMeterInput, chartOnCard, meterInput, resistanceColumns, resistancesOnCard } from "../inputs/chart";
import { chartRangeOf, onChartCard } from "../inputs/chart-line";
import { lineToday } from "../inputs/line-now";
import { lineVoltageInput } from "../inputs/supply";

/** The card, once something was read: until then there is nothing to judge. */
function readOnCard(bench: Bench): FromCard {
  const card = chartOnCard(bench);
  return card.rows.some((r) => cell(r.measured) !== undefined) ? card : { rows: [], unread: card.unread };
}
/** The line of the chart where it says none. */
function ratedLine(bench: Bench): Quantity | undefined {
  const rated = bench.quantity(line.voltage.address);
  return rated && { ...rated, origin: "assumed", source: "the set's rated line, as on most charts" };
}
const example = [
  { socket: 4, pin: 5, electrode: 1, chart: 225, source: 2200, measured: 221, range: Number.NaN, duty: 1 },
  { socket: 4, pin: 6, electrode: 2, chart: 107, source: 100e3, measured: 148, range: Number.NaN, duty: 1 },
  { socket: 4, pin: 7, electrode: 3, chart: 1.1, source: 60, measured: 1.05, range: Number.NaN, duty: 1 },
];

export const ask = declare({
  id: "volts",
  version: 2,
  title: "The voltage chart, as this meter sees it",
  question: "Which of these volts are wrong, on this meter and at today's line?",
  found: {
    when: ["dead", "weak"],
    words: "voltage chart pins meter loading wrong volts low screen plate cathode vtvm 20000 ohms per volt",
  },
  subject: "set",
  joins: false,
  works: "open-live",
  place: inside,
  draws: ["circuit"],
  steps: ["10", "09"],
  inputs: {
    // both charts stand on record cards: nothing else stores them
    chart: asked(
      list(
        chartColumns,
        "the voltage chart and what was read",
        "meter clipped on with the set off and discharged, controls as the chart says; stand clear, switch on, read. Enter it on the record card of the voltage chart",
      ),
      { from: readOnCard, example },
    ),
    resistances: asked(
      list(
        resistanceColumns,
        "the resistance chart and what was measured, set off",
        "set unplugged, discharged and measured; tubes in or out as the chart says; wait until the reading settles. Enter it on the record card of the resistance chart",
      ),
      { from: resistancesOnCard, none: "none written yet" },
    ),
    chartMeter: chartMeterInput,
    meter: meterInput,
    chartRange: stored(chart.chartRange, { from: chartRangeOf, optional: true }),
    chartLine: stored(chart.chartLine, { from: (b) => onChartCard(b, "Chart's meter and line") ?? ratedLine(b) }),
    lineVoltage: stored(line.today, { over: lineToday, from: lineVoltageInput.from }),
    supplyTolerance: stored(chart.supplyTolerance),
    partTolerance: stored(chart.partTolerance),
    tubeTolerance: stored(chart.tubeTolerance),
  },
  observed: ["chart"],
  readAt: inside,
  first: ["lineVoltage", "chartLine", "partTolerance", "tubeTolerance", "supplyTolerance"],
  results: {
    judged: { dimension: "ratio", meaning: "readings judged", known: 3 },
    wrong: { dimension: "ratio", meaning: "readings out of tolerance", known: 3 },
    unclear: { dimension: "ratio", meaning: "readings whose node's resistance must be known before they can be judged", known: 3 },
    together: {
      dimension: "ratio",
      meaning: "ratio of plates, screens and B+ to what they should read, where all are off together",
      known: 0.01,
    },
    lineRatio: { dimension: "ratio", meaning: "ratio of the line now to the chart's line" },
    worstOff: { dimension: "fraction", meaning: "largest departure of a reading from what it should be", known: 0.01 },
  },
  key: ["wrong", "unclear"],
  curves: {},
  figures: [],
});
export type Asked = InputsOf<typeof ask>;
export type G = GroundOf<typeof ask>;
export type Put = PutOf<typeof ask>;
