import { answers } from "../../ask/declare";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf } from "./findings";
import { markerSolver } from "./solve";
import theory from "./theory.md";

export const markers = answers(ask, {
  theory,
  prepare: (best, points, { wanted }) => {
    const from = Math.max(best.spacing, best.lowestBand / 2);
    const axis = Float64Array.from({ length: points }, (_, i) => from + ((best.highestBand * 1.02 - from) * i) / (points - 1));
    return { axes: { level: axis, noise: axis }, solve: markerSolver(best, axis, wanted) };
  },
  drawing: drawingOf,
  headline: (g) =>
    `A usual marker on the highest band comes in at ${g.about("levelHighest")}, ${g.about("overNoiseHighest")} above the noise; the loudest on the lowest band at ${g.about("readingLowest")}. Coupling from ${g.about("smallestCoupling")} to ${g.about("largestCoupling")} suits both.`,
  findings: findingsOf,
});
