import { answers, type Refuse } from "../../ask/declare";
import type { Table } from "../../ask/drawings";
import type { Issue } from "../../units/issue";
import { type Asked, ask } from "./ask";
import { drawingOf } from "./drawing";
import { expectedText, findingsOf, headlineOf, placeOf, where } from "./findings";
import { allTogether, judgeChart, judgeResistances, offOf, wrongOf } from "./solve";
import theory from "./theory.md";

export const volts = answers(ask, {
  theory,
  refuse: negativeOhms,
  prepare: (best) => {
    const all = judgeChart(best);
    const together = allTogether(all);
    // the line's doubt is in the ratio; the verdicts are of the best line
    const judged = {
      judged: all.length,
      wrong: wrongOf(all, together).length,
      unclear: all.filter((j) => j.verdict === "cannot judge").length,
      together: together?.ratio ?? { none: "plates, screens and B+ are not up or down together" },
      worstOff: all.length > 0 ? Math.max(...all.map(offOf)) : { none: "no row has both a chart value and a reading" },
    };
    return { axes: {}, solve: (x) => ({ ...judged, lineRatio: x.lineVoltage / x.chartLine }) };
  },
  drawing: drawingOf,
  headline: (g) => headlineOf(g.best),
  findings: findingsOf,
  tables: (x) => (x.resistances.length > 0 ? [chartTable(x), ohmsTable(x)] : [chartTable(x)]),
});

function chartTable(x: Asked): Table {
  // as they were written: nothing says that they are known finer
  const v = (name: string) => ({ name, dimension: "voltage" }) as const;
  return {
    id: "chart",
    title: "The chart as this meter should read it",
    columns: [
      { name: "where", dimension: "ratio" },
      v("chart"),
      { name: "should read", dimension: "ratio" },
      v("measured"),
      { name: "within", dimension: "fraction", u: 0.03 },
      { name: "verdict", dimension: "ratio" },
    ],
    rows: judgeChart(x).map((j) => [where(j), j.chart, expectedText(j), j.measured, j.tolerance, j.verdict]),
  };
}
const ohmsTable = (x: Asked): Table => ({
  id: "ohms",
  title: "The resistance chart, 20 % either way",
  columns: [
    { name: "where", dimension: "ratio" },
    { name: "chart", dimension: "resistance" },
    { name: "measured", dimension: "resistance" },
    { name: "verdict", dimension: "ratio" },
  ],
  rows: judgeResistances(x).map((j) => [placeOf(j), j.chart, j.measured, j.verdict]),
});

/** Resistances below nothing, located. */
function negativeOhms(x: Asked, bad: Refuse): readonly Issue[] {
  const ohms = [
    ...x.chart.map((r, i) => [`chart row ${i + 1} source`, r.source] as const),
    ...x.resistances.flatMap((r, i) => [
      [`resistances row ${i + 1} chart`, r.chart] as const,
      [`resistances row ${i + 1} measured`, r.measured] as const,
    ]),
  ];
  return ohms.flatMap(([path, ohm]) => (ohm < 0 ? [bad(path, "negative", String(ohm), "ohms, 0 or more")] : []));
}
