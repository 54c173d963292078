import type { Edge } from "./ripple-row";

/** What a correction of the set's description makes due again: part of the table in ripple.ts. Source: as there. */
type Row = readonly [makes: "redo" | "check", target: string, why: string, extra?: Partial<Edge>];
const edges = (work: string, rows: readonly Row[]): Edge[] =>
  rows.map(([makes, target, why, extra]) => ({ work, makes, target, why, ...extra }));

export const describedEdges: readonly Edge[] = [
  ...edges("described-stages", [
    ["check", "10", "the chart was judged by another route"],
    ["check", "13", "stage gains were compared along another route", { after: "20" }],
  ]),
  ...edges("described-tubes", [
    ["check", "07", "the tube was tested as another type"],
    ["check", "10", "the chart was judged by another tube's law"],
  ]),
  ...edges("described-bands", [
    ["check", "14", "the oscillator has not been checked on this band as now described"],
    ["redo", "23", "dial marks were worked out for another range"],
    ["redo", "24", "tracking was worked out for another range"],
    ["check", "26", "bandspread was worked out for another range"],
    ["check", "33g", "dial error was recorded for another range"],
  ]),
  ...edges("described-cans", [
    ["redo", "20", "the strip was worked out with other cans"],
    ["check", "33b", "selectivity was compared with another model"],
  ]),
  ...edges("described-nodes", [
    ["check", "09", "B+ was judged against other points"],
    ["check", "10", "the chart was judged against other points"],
  ]),
  ...edges("described-taps", [
    ["check", "31a", "the lead was judged at another point"],
    ["redo", "35", "which connectors carry B+ was judged from another point"],
  ]),
  ...edges("described-fittings", [
    ["check", "31b", "another accessory was set"],
    ["redo", "35", "which connectors carry B+ was judged with another accessory"],
  ]),
];
