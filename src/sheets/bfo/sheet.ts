import { answers } from "../../ask/declare";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { bfoSolver } from "./solve";
import theory from "./theory.md";

export const bfo = answers(ask, {
  theory,
  prepare: () => {
    const axis = Float64Array.from({ length: 61 }, (_, i) => 100 + 65 * i);
    const solve = bfoSolver();
    return { axes: { wanted: axis, other: axis }, solve: (x, into) => solve(x, axis, into) };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
});
