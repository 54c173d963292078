import { answers } from "../../ask/declare";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { nearestMarker, solveWhich } from "./solve";
import theory from "./theory.md";

export const whichMarker = answers(ask, {
  theory,
  prepare: (best, points) => {
    const steps = Float64Array.from({ length: points }, (_, i) => best.dialFrequency + best.spacing * (-1.5 + (3 * i) / (points - 1)));
    return {
      axes: { steps },
      solve: (x, into) => {
        for (let i = 0; i < steps.length; i++) into.steps[i] = nearestMarker(steps[i], x.spacing) - steps[i];
        return solveWhich(x);
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
});
