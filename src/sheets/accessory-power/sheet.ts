import { answers } from "../../ask/declare";
import type { Table } from "../../ask/drawings";
import { described, firstNode, lossTimes, nodes, solveChanged } from "../inputs/supply-law";
import { learntFromChart } from "../inputs/supply-learnt";
import { type Asked, ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf, partsOf } from "./findings";
import { baseOf, isFed, solve, tapNode, voltsOver } from "./solve";
import theory from "./theory.md";

/** B+ of all three nodes in both states: what the receiver's own stages get. */
function nodesTable(x: Asked): Table[] {
  const d = described(x);
  const off = d && solveChanged(d);
  const on = d && solveChanged(d, { besides: { node: tapNode(x), ampere: x.supplyCurrent } }, off);
  if (!isFed(x) || !off || !on) return [];
  const volts = (s: typeof off, k: number): number => s.volts[k] * lossTimes(x, s.volts[firstNode(x)], x.lineVoltage);
  return [
    {
      id: "nodes",
      title: "B+ without the accessory and with it (best values)",
      columns: [
        { name: "node", dimension: "ratio" },
        { name: "without", dimension: "voltage", u: 0.5 },
        { name: "with", dimension: "voltage", u: 0.5 },
        { name: "ripple without", dimension: "voltage", u: 1e-3, part: 0.02 },
        { name: "ripple with", dimension: "voltage", u: 1e-3, part: 0.02 },
      ],
      rows: [nodes.first, nodes.second, nodes.third].map((n, k) => [
        n.label,
        volts(off, k),
        volts(on, k),
        off.rippleRms[k],
        on.rippleRms[k],
      ]),
    },
  ];
}

export const accessoryPower = answers(ask, {
  theory,
  learns: learntFromChart,
  prepare: (best) => {
    const base = baseOf(best);
    const count = 9;
    const most = 4 * Math.max(best.supplyCurrent, 1e-3);
    const axis = Float64Array.from({ length: count }, (_, i) => (most * i) / (count - 1));
    const own = voltsOver(best, axis, base);
    return {
      axes: { byCurrent: axis, read: Float64Array.of(0, best.supplyCurrent) },
      solve: (x, into) => {
        const y = solve(x, base);
        // the curve of the best values, moved by what a draw moves at nothing drawn
        const times = typeof y.without === "number" ? y.without / own[0] : Number.NaN;
        for (let i = 0; i < count; i++) into.byCurrent[i] = own[i] * times;
        into.read.set([x.tapWithout ?? Number.NaN, x.tapWith ?? Number.NaN]);
        return y;
      },
    };
  },
  headline: headlineOf,
  findings: findingsOf,
  drawing: drawingOf,
  parts: partsOf,
  tables: nodesTable,
});
