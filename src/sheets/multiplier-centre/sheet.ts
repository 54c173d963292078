import { frequencyAxis, roundSpanHz } from "../../ask/axes";
import { answers } from "../../ask/declare";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { centreSolver } from "./solve";
import theory from "./theory.md";

export const multiplierCentre = answers(ask, {
  theory,
  prepare: (best, points, { wanted }) => {
    const solver = centreSolver();
    const { widthSet } = solver.solve(best);
    const half = Math.max(3 * (typeof widthSet === "number" ? widthSet : 2000), 2 * (best.beat ?? 0));
    const axis = frequencyAxis(best.strip.intermediateFrequency, roundSpanHz(half), points);
    return {
      axes: { centred: axis, asIs: axis },
      solve: (x, into, draw) => {
        const y = solver.solve(x);
        for (const state of ["asIs", "centred"] as const) if (wanted(state, draw)) solver.fill(x, state, axis, into[state]);
        return y;
      },
    };
  },
  headline: headlineOf,
  findings: findingsOf,
  drawing: drawingOf,
});
