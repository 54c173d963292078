import { frequencyAxis, roundSpanHz } from "../../ask/axes";
import { answers } from "../../ask/declare";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { multiplierSolver, regenerationSteps } from "./solve";
import theory from "./theory.md";

export const qMultiplier = answers(ask, {
  theory,
  prepare: (best, points, { wanted }) => {
    const solver = multiplierSolver();
    const { width6dBBefore } = solver.solve(best);
    const wide = typeof width6dBBefore === "number" ? width6dBBefore : 10_000;
    const axis = frequencyAxis(best.strip.intermediateFrequency, roundSpanHz(1.2 * wide), points);
    return {
      axes: { before: axis, after: axis },
      solve: (x, into, draw) => {
        const y = solver.solve(x);
        for (const state of ["after", "before"] as const) if (wanted(state, draw)) solver.fill(x, state, axis, into[state]);
        return y;
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  tables: (x) =>
    x.function === "reject"
      ? []
      : [
          {
            id: "regeneration",
            title: "From no regeneration to just under oscillation (best values)",
            columns: [
              { name: "setting", dimension: "fraction" },
              { name: "Q", dimension: "ratio" },
              { name: "-6 dB", dimension: "frequency" },
              { name: "AM audio", dimension: "frequency" },
              { name: "gain", dimension: "decibel" },
              { name: "5 kHz off", dimension: "decibel" },
              { name: "noise AM", dimension: "decibel" },
              { name: "SSB", dimension: "decibel" },
              { name: "CW", dimension: "decibel" },
            ],
            rows: regenerationSteps(x),
          },
        ],
});
