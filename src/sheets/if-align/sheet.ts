import { answers } from "../../ask/declare";
import { printValue } from "../../units/print";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { alignSolver } from "./solve";
import { procedure } from "./tables";
import theory from "./theory.md";

export const ifAlign = answers(ask, {
  theory,
  refuse: (x, bad) => {
    const f = x.strip.intermediateFrequency;
    if (x.filterCentre > 0 && Math.abs(x.filterCentre / f - 1) > 0.05)
      return bad(
        "filterCentre",
        "far-off",
        printValue(x.filterCentre, "frequency", 100),
        `within 5 % of the IF, ${printValue(f, "frequency", 500)}: else it is another filter, or another IF`,
      );
    return x.humpSpacing > 0 === x.humpValley > 0
      ? undefined
      : bad(
          x.humpSpacing > 0 ? "humpValley" : "humpSpacing",
          "half-a-hump",
          "0",
          "both the distance of the humps and the depth between them",
        );
  },
  prepare: () => {
    const axis = Float64Array.from({ length: 41 }, (_, i) => -10e3 + 500 * i);
    const solve = alignSolver();
    return { axes: { primary: axis, secondary: axis }, solve: (x, into) => solve(x, axis, into) };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  tables: (x) => [procedure(x)],
});
