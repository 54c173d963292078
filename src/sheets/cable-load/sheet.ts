import { frequencyAxis, roundSpanHz } from "../../ask/axes";
import { answers } from "../../ask/declare";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { cableSolver, states } from "./solve";
import theory from "./theory.md";

export const cableLoad = answers(ask, {
  theory,
  prepare: ({ strip, cableLength }, points, { wanted }) => {
    const solver = cableSolver();
    const axis = frequencyAxis(strip.intermediateFrequency, roundSpanHz(1.5 * solver.widthForAxisHz(strip)), points);
    // from no cable to twice this one, which lies in the middle
    const lengthsM = Float64Array.from({ length: 41 }, (_, i) => (i * Math.max(cableLength, 0.1)) / 20);
    return {
      axes: { before: axis, cable: axis, repeaked: axis, compensated: axis, byLength: lengthsM },
      solve: (x, into, draw) => {
        const y = solver.solve(x);
        for (const state of states) if (wanted(state, draw)) solver.fill(x, state, axis, into[state]);
        if (wanted("byLength", draw)) solver.fillByLength(x, lengthsM, into.byLength);
        return y;
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
});
