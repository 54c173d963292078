import { stored } from "../../ask/stored";
import { chart } from "../../set/addresses/chart";
import type { Bench } from "../../set/bench";
import { type Cell, type Column, cell, type FromCard, type Row } from "../../set/columns";
import { socketNumber } from "../../set/sockets";
import { type MeterSaid, meterExpected, meterFrom, meterKindFrom, meterOhm, rangeFor } from "../../standards/meters";
import { tubePointOf } from "../../standards/receiving-tubes";
import type { Issue } from "../../units/issue";
import { lineThen, readCard } from "./card-rows";
import { lineWords } from "./chart-line";

/** What the voltage chart's card holds, as the sheets on DC ask for it. */
export const electrodes = ["other", "plate", "screen", "cathode", "grid", "heater", "B+", "AVC"] as const;

/**
 * The electrode that a person wrote: its word, an old or British one, or a letter.
 *
 * @param said such as `plate`, `anode`, `g2`
 * @returns its place among the electrodes; the first, other, where it is none
 * @source words of the trade
 */
export function electrodeOf(said: string): number {
  const word = said.trim().toLowerCase();
  const known: readonly (readonly [RegExp, (typeof electrodes)[number]])[] = [
    [/^(plate|anode|p|a)\b/, "plate"],
    [/^(screen|g2|sg)\b/, "screen"],
    [/^(cathode|k)\b/, "cathode"],
    [/^(grid|control grid|g1|g)\b/, "grid"],
    [/^(heater|filament|h|f)\b/, "heater"],
    [/^(b\+|ht|supply|b)/, "B+"],
    [/^(avc|agc)\b/, "AVC"],
  ];
  const hit = known.find(([r]) => r.test(word))?.[1] ?? "other";
  return electrodes.indexOf(hit);
}
const electrodeWord = (said: string): string => electrodes[electrodeOf(said)];
/** What a tube does, as far as it bounds what its nodes may have in ohms. */
export const chartDuties = ["not said", "RF or IF", "oscillator", "audio", "output"] as const;
/** Columns of the voltage chart, as sheets and its record card have them. */
export const chartColumns = {
  socket: { prefix: "V", halves: true, meaning: "socket; V5a and V5b are the halves of a double tube" },
  pin: { meaning: "pin", optional: true, dimension: "ratio" },
  electrode: { options: electrodes, meaning: "electrode", optional: true },
  chart: { dimension: "voltage", bare: "V", meaning: "chart value" },
  source: { dimension: "resistance", meaning: "resistance of the node, where known", optional: true },
  measured: { dimension: "voltage", bare: "V", meaning: "measured", optional: true },
  range: {
    dimension: "voltage",
    bare: "V",
    meaning: "range that the meter stood on for this reading, if the meter has ranges",
    optional: true,
  },
  duty: { options: chartDuties, meaning: "what the tube does", optional: true },
  part: { dimension: "resistance", meaning: "value of the one resistor at the electrode, where known", optional: true },
  meter: { dimension: "resistance", meaning: "resistance of the meter that read this row, where another read the rest", optional: true },
  perVolt: {
    dimension: "resistance",
    meaning: "ohms per volt of the meter that read this row, where another read the rest",
    optional: true,
  },
  line: { dimension: "voltage", bare: "V", meaning: "line volts at which a row was read", optional: true },
} as const satisfies Readonly<Record<string, Column>>;

/** One row of the voltage chart. What was not written is nothing; a zero that was measured is a value. */
export interface ChartRow {
  readonly socket: Cell;
  readonly pin: Cell;
  readonly electrode: (typeof electrodes)[number];
  readonly chart: Cell;
  readonly source: Cell;
  readonly measured: Cell;
  readonly range: Cell;
  readonly duty: (typeof chartDuties)[number];
  readonly part: Cell;
  /** what the row's own meter puts across the node, where it is told */
  readonly meterOhm: Cell;
  /** line when it was read, V, where it is told */
  readonly line: Cell;
}
/** A range that does not hold what was read on it is none. */
export const rangeOf = (r: Pick<ChartRow, "range" | "measured">): Cell =>
  r.range !== undefined && Math.abs(r.measured ?? 0) <= 1.001 * r.range ? r.range : undefined;
function ownMeterOhm(r: Row): Cell {
  const [fixed, perVolt, measured] = [cell(r.meter), cell(r.perVolt), cell(r.measured)];
  if (fixed !== undefined || perVolt === undefined) return fixed;
  return perVolt * (rangeOf({ range: cell(r.range), measured }) ?? rangeFor(measured ?? 0));
}
export const chartRow = (r: Row): ChartRow => ({
  socket: cell(r.socket),
  pin: cell(r.pin),
  electrode: electrodes[r.electrode] ?? "other",
  chart: cell(r.chart),
  source: cell(r.source),
  measured: cell(r.measured),
  range: cell(r.range),
  duty: chartDuties[cell(r.duty) ?? 0] ?? "not said",
  part: cell(r.part),
  meterOhm: ownMeterOhm(r),
  line: cell(r.line),
});

const dutyByKind: Readonly<Record<string, (typeof chartDuties)[number]>> = {
  rf: "RF or IF",
  mixer: "RF or IF",
  "if-tube": "RF or IF",
  oscillator: "oscillator",
  bfo: "oscillator",
  detector: "audio",
};
/**
 * Whether a tube of the audio line drives the loudspeaker: by what is said that it does, or by its type's point.
 *
 * @param t its type and what it does
 * @returns true for an output tube
 * @source receiving-tubes.ts
 */
export const isOutput = (t: { readonly type: string; readonly function: string }): boolean =>
  /output|power/i.test(t.function) || (tubePointOf(t.type)?.plateA ?? 0) > 0.02;
function dutyOf(bench: Bench, socket: Cell): number {
  const tube = bench.tubes().find((t) => socketNumber(t.socket) === socket);
  const kind = tube && bench.choice(`stages.${tube.stage}.kind`);
  return chartDuties.indexOf(kind === "audio" ? (isOutput(tube!) ? "output" : "audio") : (dutyByKind[kind ?? ""] ?? "not said"));
}
/**
 * The voltage chart's card: every row that names a socket.
 *
 * @param bench where the card is
 * @returns rows in SI, with the cells that can't be read told
 * @source house frame
 */
export function chartOnCard(bench: Bench): FromCard {
  const columns = { ...chartColumns, chart: { ...chartColumns.chart, optional: true } } as const;
  const read = readCard(bench, "voltage-chart", "voltage chart", columns, {
    socket: { heading: "Tube" },
    pin: { heading: "Pin" },
    electrode: { heading: "Electrode", words: electrodeWord },
    chart: { heading: "Chart V" },
    source: { heading: "Source Ω if known" },
    measured: { heading: "Measured V" },
    range: { heading: "Range V" },
    part: { heading: "Part Ω if known" },
    // what names no meter stands as it was written, and is told
    meter: { heading: "Meter", words: (said) => ohmSaid(meterFrom(said)?.ohm) ?? (meterFrom(said) ? "" : said) },
    line: { heading: lineThen, words: lineWords },
    perVolt: { heading: "Meter", words: (said) => ohmSaid(meterFrom(said)?.ohmPerVolt) ?? "" },
  });
  const whole = bench.cardField("voltage-chart", "Meter") ?? "";
  const unread =
    whole === "" || meterFrom(whole)
      ? []
      : [{ path: "voltage chart, Meter", code: "no-meter", read: whole, expected: meterExpected } satisfies Issue];
  return {
    // a kind of the table is an input of its own, which may be tried
    rows: read.rows.map((r) => ({ ...withMeter(r, meterKindFrom(whole) ? undefined : meterFrom(whole)), duty: dutyOf(bench, r.socket) })),
    unread: [...read.unread, ...unread],
  };
}
const ohmSaid = (ohm: number | undefined): string | undefined => (ohm === undefined ? undefined : `${ohm} ohm`);
/** A row with the meter of the whole card, where it names none of its own. */
const withMeter = (r: Row, whole: MeterSaid | undefined): Row =>
  whole === undefined || cell(r.meter) !== undefined || cell(r.perVolt) !== undefined
    ? r
    : { ...r, meter: whole.ohm ?? Number.NaN, perVolt: whole.ohmPerVolt ?? Number.NaN };
/** Columns of the resistance chart. */
export const resistanceColumns = {
  socket: { prefix: "V", halves: true, meaning: "socket" },
  pin: { meaning: "pin", optional: true, dimension: "ratio" },
  chart: { dimension: "resistance", meaning: "chart value" },
  measured: { dimension: "resistance", meaning: "measured" },
} as const satisfies Readonly<Record<string, Column>>;
/** The resistance chart's card, the same way; a row without either figure is none yet. */
export const resistancesOnCard = (bench: Bench): FromCard =>
  readCard(bench, "resistance-chart", "resistance chart", resistanceColumns, {
    socket: { heading: "Tube" },
    pin: { heading: "Pin" },
    chart: { heading: "Chart Ω", mayLack: true },
    measured: { heading: "Measured Ω", mayLack: true },
  });

/** Less than this part of a scale nobody reads on it: the chart's one range is of plates and screens, its cathodes were read on a lower. Common practice, no source. */
const leastOfScale = 1 / 20;
/** Ohms of the chart's meter at a chart value: on the range that the chart states, where the value can be read on it. */
export const chartMeterOhm = (name: string, chartV: number, rangeV: number | undefined): number => {
  const part = rangeV === undefined ? 0 : Math.abs(chartV) / rangeV;
  return meterOhm(name, chartV, part <= 1 && part >= leastOfScale ? rangeV : undefined);
};

/** The kind of meter that a field of the card names. */
const meterOnCard = (bench: Bench, field: string): string | undefined => meterKindFrom(bench.cardField("voltage-chart", field) ?? "");

/** The meter of the chart, and the one that today's volts are read with, as the card names them. */
export const chartMeterInput = stored(chart.chartMeter, { from: (bench) => meterOnCard(bench, "Chart's meter and line") });
export const meterInput = stored(chart.meter, { from: (bench) => meterOnCard(bench, "Meter") });
