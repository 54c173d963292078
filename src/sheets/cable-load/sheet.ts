import { frequencyAxis, roundSpanHz } from "../../ask/axes";
import { answers } from "../../ask/declare";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { cableSolver, states } from "./solve";
import theory from "./theory.md";

export const cableLoad = answers(ask, {
  theory,
  prepare: ({ strip }, points, { wanted }) => {
    const solver = cableSolver();
    const axis = frequencyAxis(strip.intermediateFrequency, roundSpanHz(1.5 * solver.widthForAxisHz(strip)), points);
    return {
      axes: { before: axis, cable: axis, repeaked: axis, compensated: axis },
      solve: (x, into, draw) => {
        const y = solver.solve(x);
        for (const state of states) if (wanted(state, draw)) solver.fill(x, state, axis, into[state]);
        return y;
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
});
