import type { Bench } from "../../set/bench";
import type { Issue } from "../../units/issue";
import { printValue } from "../../units/print";
import { exact } from "../../units/quantity";
import { chartRows, electrodes, meterInput, onChartCard, resistanceRows } from "../chart-inputs";
import { type Finding, type GroundOn, type Row, sheet, type Table } from "../contract";
import { lineVoltageInput } from "../supply-inputs";
import { type Judged, judgeChart, judgeResistances, type VoltsInputs } from "./solve";
import theory from "./theory.md";

const practice = "common practice, no source";
const inside: Finding["hazards"] = ["b-plus", "stored-charge"];
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
type Names = "judged" | "wrong" | "unclear" | "lineRatio" | "worstOff";
type G = GroundOn<VoltsInputs, Names>;
const wrongly = (j: Judged): boolean => ["low", "high", "of the wrong sign"].includes(j.verdict);
const placeOf = (j: { readonly socket: number; readonly pin: number }): string =>
  `V${j.socket}${Number.isFinite(j.pin) ? ` pin ${j.pin}` : ""}`;
const where = (j: Judged): string => `${placeOf(j)}, ${j.electrode}`;
const expectedText = (j: Judged): string =>
  j.high - j.low < 0.01 * Math.abs(j.high)
    ? printValue(j.high, "voltage", 0.02 * Math.abs(j.high))
    : `${printValue(j.low, "voltage", 0.02 * Math.abs(j.low))} to ${printValue(j.high, "voltage", 0.02 * Math.abs(j.high))}`;

export const volts = sheet({
  id: "volts",
  version: 1,
  title: "The voltage chart, as this meter sees it",
  question: "Which of these volts are wrong, on this meter and at today's line?",
  subject: "set",
  joins: false,
  works: "open-live",
  steps: ["10", "09"],
  inputs: {
    chart: {
      kind: "table",
      columns: {
        socket: { prefix: "V", meaning: "socket" },
        pin: { meaning: "pin", optional: true, dimension: "ratio" },
        electrode: { options: electrodes, meaning: "electrode" },
        chart: { dimension: "voltage", bare: "V", meaning: "chart value" },
        source: { dimension: "resistance", meaning: "resistance of the node, where it is known", optional: true },
        measured: { dimension: "voltage", bare: "V", meaning: "measured", optional: true },
        range: { dimension: "voltage", bare: "V", meaning: "range of the meter then, where it has ranges", optional: true },
      },
      meaning: "the voltage chart and what was read",
      howMeasured:
        "meter clipped on with the set off and discharged, controls as the chart says; stand clear, switch on, read. It is typed on the record card of the voltage chart",
      from: (bench) => {
        const rows = chartRows(bench);
        return rows.some((r) => !Number.isNaN(r.measured)) ? rows : undefined;
      },
      assumed: {
        rows: [
          { socket: 4, pin: 5, electrode: 1, chart: 225, source: 2200, measured: 221, range: Number.NaN },
          { socket: 4, pin: 6, electrode: 2, chart: 107, source: 100e3, measured: 148, range: Number.NaN },
          { socket: 4, pin: 7, electrode: 3, chart: 1.1, source: 60, measured: 1.05, range: Number.NaN },
        ] as Row[],
        source: "an invented chart",
      },
      mostRows: 200,
    },
    resistances: {
      kind: "table",
      columns: {
        socket: { prefix: "V", meaning: "socket" },
        pin: { meaning: "pin", optional: true, dimension: "ratio" },
        chart: { dimension: "resistance", meaning: "chart value" },
        measured: { dimension: "resistance", meaning: "measured" },
      },
      meaning: "the resistance chart and what was measured, set off",
      howMeasured:
        "plug out, discharged and measured; tubes in or out as the chart says; wait until the reading settles. It is typed on the record card of the resistance chart",
      from: (bench) => {
        const rows = resistanceRows(bench).filter((r) => !Number.isNaN(r.chart) && !Number.isNaN(r.measured));
        return rows.length > 0 ? rows : undefined;
      },
      assumed: { rows: [], source: "none written yet" },
      mostRows: 200,
    },
    chartMeter: meterInput("meter that the chart was taken with", "chartMeter", "20 kΩ/V", "Chart's meter and line"),
    meter: meterInput("meter that read now", "meter", "digital, 10 MΩ", "Meter"),
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
      from: (b: Bench) => b.quantity("supplies.lineNow") ?? onChartCard(b, "Line volts") ?? lineVoltageInput.from(b),
    },
    supplyTolerance: tolerance("tolerance of B+ and heaters", 0.1, `10 %, read for one maker's heaters, else ${practice}`),
    partTolerance: tolerance("tolerance of plates and screens", 0.2, `10 to 20 % on charts of the era, ${practice}`),
    tubeTolerance: tolerance(
      "tolerance of what hangs on the tube: cathodes, grids, AVC",
      0.3,
      "a commentary gives 30 % about the mean as normal for receiving tubes (read)",
    ),
  },
  observed: ["chart"],
  readAt: inside,
  first: ["lineVoltage", "chartLine", "partTolerance", "tubeTolerance", "supplyTolerance"],
  results: {
    judged: { dimension: "ratio", meaning: "readings judged", known: 3 },
    wrong: { dimension: "ratio", meaning: "of them low or high", known: 3 },
    unclear: { dimension: "ratio", meaning: "that can't be judged until the node's resistance is known", known: 3 },
    lineRatio: { dimension: "ratio", meaning: "line now over the chart's line" },
    worstOff: { dimension: "fraction", meaning: "largest departure of a reading from what it should be", known: 0.01 },
  },
  key: ["wrong", "unclear"],
  curves: {},
  prepare: (best) => {
    const x = best as unknown as VoltsInputs;
    const issues: Issue[] = x.chart.flatMap((r, i) =>
      [
        ["chart", r.chart],
        ["source", r.source],
        ["measured", r.measured],
        ["range", r.range],
      ].flatMap(([name, v]) =>
        v === Number.POSITIVE_INFINITY
          ? [
              {
                path: `chart row ${i + 1} ${name}`,
                code: "not-a-figure",
                read: "what is on the card",
                expected: name === "source" ? "ohms, such as 100k" : "volts, such as 104 V or 1.1",
              },
            ]
          : Number(v) < 0 && name === "source"
            ? [{ path: `chart row ${i + 1} source`, code: "negative", read: String(v), expected: "ohms, 0 or more" }]
            : [],
      ),
    );
    x.chart.forEach((r, i) => {
      if (Math.abs(r.measured) > 1.001 * r.range)
        issues.push({
          path: `chart row ${i + 1} range`,
          code: "range-below-reading",
          read: `${r.range} V`,
          expected: `a range that holds the ${r.measured} V read`,
        });
    });
    x.resistances.forEach((r, i) => {
      for (const name of ["chart", "measured"] as const)
        if (!Number.isFinite(r[name]) || r[name] < 0)
          issues.push({
            path: `resistances row ${i + 1} ${name}`,
            code: "not-ohms",
            read: "what is on the card",
            expected: "ohms, 0 or more, such as 33k",
          });
    });
    if (issues.length > 0) return { axes: {}, solve: () => ({}) as never, issues };
    const judged = judgeChart(x);
    return {
      axes: {},
      solve: (now) => {
        const own = now as unknown as VoltsInputs;
        // the line's doubt is in the ratio; the verdicts are of the best line
        return {
          judged: judged.length,
          wrong: judged.filter((j) => wrongly(j)).length,
          unclear: judged.filter((j) => j.verdict === "cannot judge").length,
          lineRatio: own.lineVoltage / own.chartLine,
          worstOff:
            judged.length > 0 ? judged.reduce((w, j) => Math.max(w, offOf(j)), 0) : { none: "no row has both a chart value and a reading" },
        };
      },
    };
  },
  headline: (g) => {
    const all = judgeChart(g.best as unknown as VoltsInputs);
    if (all.length === 0) return "No row has both a chart value and a reading yet.";
    const wrong = all.filter((j) => wrongly(j));
    const unclear = all.filter((j) => j.verdict === "cannot judge").length;
    const tail = unclear > 0 ? ` ${unclear} can't be judged until the resistance of their node is known.` : "";
    if (wrong.length === 0) return `${all.length - unclear} of ${all.length} readings are as they should be on this meter.${tail}`;
    const [first] = wrong;
    return `${wrong.length} of ${all.length} readings ${wrong.length === 1 ? "is" : "are"} wrong: ${where(first)} is ${first.verdict} (${printValue(first.measured, "voltage", 0.005 * Math.abs(first.measured))} where this meter should read ${expectedText(first)})${wrong.length > 1 ? ", and more below" : ""}.${tail}`;
  },
  findings: (ground) => {
    const g = ground as unknown as G;
    const all = judgeChart(g.best);
    const out: Finding[] = [];
    const of = (v: string) => all.filter((j) => j.verdict === v);
    const bPlusHeater = all.filter((j) => j.electrode === "heater" || j.electrode === "B+");
    const both = ["heater", "B+"].every((e) => bPlusHeater.some((j) => j.electrode === e));
    const bothHigh = both && bPlusHeater.every((j) => j.measured > 1.03 * j.high && j.measured < 1.3 * j.high);
    for (const j of all.filter((r) => r.electrode === "grid" && r.measured > 0.3 && r.chart < 0.5))
      out.push({
        id: `volts-positive-grid-${j.row}`,
        severity: "danger",
        says: `${where(j)} stands at ${printValue(j.measured, "voltage", 0.02)}: a positive grid drives its tube, and the transformer at its plate, to death.`,
        do: "Switch off now. Discharge, measure; then ask what the readings of this stage come of: coupling capacitor, tube, or the line behind the grid.",
        restsOn: ["wrong"],
        hazards: [...inside, "heat"],
      });
    if (bothHigh)
      out.push({
        id: "volts-line",
        severity: "check",
        says: "Heaters and B+ are all high together: that is the line, or a wrong tap, before it is a fault.",
        do: "Read the line while the set is on, and ask again with it.",
        restsOn: ["lineRatio"],
        hazards: ["b-plus", "line", "stored-charge"],
      });
    for (const j of [...of("of the wrong sign"), ...of("low"), ...of("high")].slice(0, 12))
      out.push({
        id: `volts-${j.verdict.replace(/ /g, "-")}-${j.row}`,
        severity: "act",
        says: `${where(j)}: ${printValue(j.measured, "voltage", 0.005 * Math.abs(j.measured))} is ${j.verdict}${j.verdict === "of the wrong sign" ? " (leads the wrong way round, or the wrong pin, if it is not a grid)" : ""}. This meter should read ${expectedText(j)}, give or take ${Math.round(100 * j.tolerance)} % (chart ${printValue(j.chart, "voltage", 0.005 * Math.abs(j.chart))}).`,
        do:
          j.electrode === "B+" || j.electrode === "heater"
            ? "Read the line and the heaters while the set is on, and ask the sheet on B+ what it comes of. Power off, discharged and measured, before any part is touched."
            : "Read the other pins of this tube, then ask what its readings come of (suspects). Power off, discharged and measured, before any part is touched.",
        restsOn: ["wrong"],
        hazards: inside,
      });
    for (const j of of("cannot judge").slice(0, 12))
      out.push({
        id: `volts-unclear-${j.row}`,
        severity: "check",
        says: `${where(j)}: cannot judge ${printValue(j.measured, "voltage", 0.005 * Math.abs(j.measured))} until the node's resistance is known. A sound node would read ${expectedText(j)} on this meter, by its resistance.`,
        do: "Find the resistance that feeds this node on the service sheet, or measure it with the power off, and write it on the card.",
        restsOn: ["unclear"],
        hazards: inside,
      });
    for (const j of judgeResistances(g.best)
      .filter((r) => r.verdict !== "as it should be")
      .slice(0, 12))
      out.push({
        id: `volts-ohms-${j.verdict}-${j.row}`,
        severity: "act",
        says: `${placeOf(j)}: ${printValue(j.measured, "resistance", 0.01 * j.measured)} is ${j.verdict} (chart ${printValue(j.chart, "resistance", 0.01 * j.chart)}, 20 % either way). ${j.verdict === "high" ? "In the circuit a reading is never more than the part by itself: what reads high is high, or open." : "Low may be another path beside it: lift one lead to tell the part from the path, and let filters charge first."}`,
        do: "Plug out, discharged and measured; lift one lead of the part and measure it by itself.",
        restsOn: [],
        hazards: inside,
      });
    if (of("as it should be").length > 0)
      out.push({
        id: "volts-sound",
        severity: "note",
        says: `${of("as it should be").length} readings are as they should be. A DC reading in order does not prove a capacitor, a coil or a tube's gain.`,
        restsOn: ["judged"],
        hazards: inside,
      });
    return out as never;
  },
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
const offOf = (j: Judged): number => {
  const near = Math.min(Math.max(j.measured, j.low), j.high);
  return near === 0 ? 0 : Math.abs(j.measured / near - 1);
};
