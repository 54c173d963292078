import { answers, type Refuse } from "../../ask/declare";
import type { Table } from "../../ask/drawings";
import type { Ranking } from "../../infer/stage/rank-causes";
import { nodes } from "../../physics/tube-stage";
import { cell } from "../../set/columns";
import type { Issue } from "../../units/issue";
import { type Asked, ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { partsOf } from "./parts";
import { rankOf, resultsOf, told, voltsOf } from "./solve";
import theory from "./theory.md";

/** The ranking of inputs that were not refused. */
function ranked(x: Asked): Ranking {
  const r = rankOf(x);
  if (!r) throw new Error("suspects: a stage without an operating point is refused before it is ranked");
  return r;
}

export const suspects = answers(ask, {
  theory,
  refuse: (x, bad) => {
    const issues = contradictions(x, bad);
    if (issues.length > 0 || rankOf(x)) return issues;
    return bad("supply", "no-solution", "these parts", "a stage that has an operating point");
  },
  prepare: (best) => {
    const y = resultsOf(best, ranked(best));
    return { axes: {}, solve: () => y };
  },
  drawing: drawingOf,
  headline: (g) => headlineOf(g.best, ranked(g.best)),
  findings: (g, put) => findingsOf(g.best, ranked(g.best), put),
  tables: (x) => [causesTable(ranked(x)), testsTable(ranked(x))],
  parts: (g) => partsOf(g.best, ranked(g.best)),
});

function causesTable(r: Ranking): Table {
  const volts = (name: string, u: number) => ({ name, dimension: "voltage", u }) as const;
  return {
    id: "causes",
    title: "Causes, likeliest first, and what each would read on this meter",
    columns: [
      { name: "cause", dimension: "ratio" },
      { name: "how bad", dimension: "ratio" },
      { name: "chance", dimension: "chance" },
      volts("plate", 1),
      volts("screen", 1),
      volts("cathode", 0.02),
      volts("grid", 0.02),
    ],
    rows: r.causes
      .filter((c, i) => i < 3 || c.probability > 0.005 || r.ties.includes(c))
      .slice(0, 10)
      .map((c) => [
        // a cause by what stands before its explanation
        c.fault.says.split(":")[0],
        c.size || "–",
        told(c.probability),
        ...(["plate", "screen", "cathode", "grid"] as const).map((n) => c.predicted[n] ?? Number.NaN),
      ]),
  };
}
const testsTable = (r: Ranking): Table => ({
  id: "next",
  title: "Tests that would tell you most",
  columns: [
    { name: "test", dimension: "ratio", typed: true },
    { name: "what it is", dimension: "ratio" },
    { name: "bits", dimension: "ratio", u: 0.05 },
  ],
  rows: r.next.slice(0, 5).map((n) => [n.test.id, n.test.says, n.bits]),
});

/** Readings that contradict each other, or the circuit: located, and which contradicts which. */
function contradictions(x: Asked, bad: Refuse): readonly Issue[] {
  const v = voltsOf(x);
  const supply = v.supply ?? 1.3 * x.supply;
  const said =
    v.supply === undefined ? `the ${x.supply.toFixed(0)} V that feeds the stage, with a third to spare` : `the supply's own ${v.supply} V`;
  const row = (n: (typeof nodes)[number]): string => `readings row ${x.readings.findIndex((r) => nodes[r.electrode] === n) + 1}`;
  const out = (["plate", "screen", "cathode"] as const)
    .filter((n) => (v[n] ?? 0) > 1.05 * supply + 2)
    .map((n) => bad(row(n), "contradiction", `${n} ${v[n]} V`, `no more than ${said}: one of the two is misread, or a ground is missing`));
  if (v.cathode !== undefined && v.screen !== undefined && v.cathode > v.screen + 2)
    out.push(
      bad(
        row("cathode"),
        "contradiction",
        `cathode ${v.cathode} V`,
        `less than the screen's ${v.screen} V: one of the two is misread, or the pins are`,
      ),
    );
  const unread = x.readings.findIndex((r) => cell(r.volts) === undefined);
  if (unread >= 0) out.push(bad(`readings row ${unread + 1}`, "not-a-figure", "nothing", "volts, such as 104 V or 1.1"));
  return out;
}
