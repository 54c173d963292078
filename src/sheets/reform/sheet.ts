import { answers, type Refuse } from "../../ask/declare";
import type { Table } from "../../ask/drawings";
import type { Issue } from "../../units/issue";
import { decideCapacitors } from "../inputs/capacitor-decision";
import { type Asked, ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf, partsOf } from "./findings";
import { countsOf } from "./solve";
import theory from "./theory.md";

/** Figures of the survey that no capacitor can have. */
const impossible = (x: Asked, bad: Refuse): readonly Issue[] =>
  x.capacitors.flatMap((c, i) => {
    const above0 = (path: string, read: number, expected: string) =>
      read > 0 ? [] : [bad(`capacitors row ${i + 1} ${path}`, "not-positive", String(read), expected)];
    return [
      ...above0("value", c.value, "a capacitance above 0, such as 20 uF or .05 mfd"),
      ...above0("rating", c.rating, "volts above 0, such as 450"),
      ...(c.leakage < 0 ? above0("leakage", c.leakage, "a current, such as 1.2 mA, or nothing") : []),
    ];
  });

const urgencyTable = (x: Asked): Table => ({
  id: "capacitors",
  title: "Most urgent first: harm times likelihood",
  columns: [
    { name: "duty", dimension: "ratio" },
    { name: "kind", dimension: "ratio" },
    { name: "value", dimension: "capacitance" },
    { name: "rated", dimension: "voltage" },
    { name: "may leak", dimension: "current", u: 1e-5 },
    { name: "urgency", dimension: "ratio", u: 0.01 },
    { name: "decision", dimension: "ratio" },
  ],
  rows: decideCapacitors(x).map((c) => {
    const own = x.capacitors[c.row - 1];
    return [c.duty, c.kind, own.value, own.rating, c.kind === "electrolytic" ? c.limitA : Number.NaN, c.urgency, c.decision];
  }),
});

export const reform = answers(ask, {
  theory,
  refuse: impossible,
  prepare: (best) => {
    const y = countsOf(best);
    return { axes: {}, solve: () => y };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  parts: partsOf,
  tables: (x) => [urgencyTable(x)],
});
