import { answers } from "../../ask/declare";
import { learntFromChart } from "../inputs/supply-learnt";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { setVoltsOver, solve, warmUp } from "./solve";
import { tablesOf } from "./tables";
import theory from "./theory.md";

export const bringUp = answers(ask, {
  theory,
  learns: learntFromChart,
  prepare: (best, points) => {
    const count = Math.min(points, 81);
    const axis = Float64Array.from({ length: count }, (_, i) => best.plateWatts * 10 ** (-1 + (2 * i) / (count - 1)));
    const warm = warmUp(best);
    return {
      axes: { byLoad: axis },
      solve: (x, into) => {
        setVoltsOver(x, axis, into.byLoad);
        return solve(x, warm);
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  tables: tablesOf,
});
