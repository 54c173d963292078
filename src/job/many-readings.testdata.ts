import type { Entry } from "./document";

/** One of many readings of a job that is long: a table of three rows. */
export const tableReading = (i: number, at: string): Entry => ({
  id: `e${i}`,
  at,
  who: "bench",
  kind: "reading",
  reading: {
    id: `r${i}`,
    as: "table",
    state: i % 2 ? "as-left" : "as-found",
    step: "10",
    stage: "mixer",
    instrument: "",
    thermal: "warm",
    file: { name: `chart-${i}.csv`, hash: "" },
    columns: { volts: [i, i + 1, i + 2] },
    figures: [{ name: "rows", text: "3" }],
    warnings: [],
  },
});
