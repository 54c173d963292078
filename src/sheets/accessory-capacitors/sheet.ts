import { answers, type Refuse } from "../../ask/declare";
import type { Table } from "../../ask/drawings";
import { cell } from "../../set/columns";
import type { Issue } from "../../units/issue";
import { type Asked, ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf, partsOf } from "./findings";
import { decideOwn, solve } from "./solve";
import theory from "./theory.md";

/** Figures of the survey that no capacitor can have. */
const impossible = (x: Asked, bad: Refuse): readonly Issue[] =>
  x.capacitors.flatMap((c, i) => {
    const at = (path: string, read: number, expected: string): Issue[] => [
      bad(`capacitors row ${i + 1} ${path}`, "not-positive", String(read), expected),
    ];
    return [
      ...(c.value > 0 ? [] : at("value", c.value, "a capacitance above 0, such as 1500 pF")),
      ...(cell(c.measured) === undefined || c.measured > 0 ? [] : at("measured", c.measured, "a capacitance above 0, or nothing")),
      ...(c.rating > 0 ? [] : at("rating", c.rating, "volts above 0, such as 450")),
      ...(c.leakage < 0 ? at("leakage", c.leakage, "a current, such as 1.2 mA, or nothing") : []),
    ];
  });

const ownTable = (x: Asked): Table => ({
  id: "capacitors",
  title: "The series capacitor first, then harm times likelihood",
  columns: [
    { name: "duty", dimension: "ratio" },
    { name: "kind", dimension: "ratio" },
    { name: "marked", dimension: "capacitance" },
    { name: "measured", dimension: "capacitance" },
    { name: "rated", dimension: "voltage" },
    { name: "may leak", dimension: "current", u: 1e-5 },
    { name: "decision", dimension: "ratio" },
  ],
  rows: decideOwn(x).map((c) => {
    const own = x.capacitors[c.row - 1];
    return [c.duty, c.kind, own.value, own.measured, own.rating, c.kind === "electrolytic" ? c.limitA : Number.NaN, c.decision];
  }),
});

export const accessoryCapacitors = answers(ask, {
  theory,
  refuse: impossible,
  prepare: (best) => {
    const y = solve(best);
    return { axes: {}, solve: () => y };
  },
  headline: headlineOf,
  findings: findingsOf,
  drawing: drawingOf,
  parts: partsOf,
  tables: (x) => [ownTable(x)],
});
