import { answers } from "../../ask/declare";
import { printValue } from "../../units/print";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf } from "./findings";
import { coilOf, shapeOf, woundH } from "./solve";
import theory from "./theory.md";

export const coil = answers(ask, {
  theory,
  refuse: (x, bad) =>
    x.winding === "several layers" && !(x.depth < x.diameter)
      ? bad(
          "depth",
          "past-its-axis",
          printValue(x.depth, "length"),
          `less than the mean diameter, ${printValue(x.diameter, "length")}: deeper, the winding would reach past its own axis`,
        )
      : undefined,
  prepare: (best, points) => {
    const shape = shapeOf(best);
    const count = Math.min(points, 61);
    const axis = Float64Array.from({ length: count }, (_, i) => best.turns * (0.3 + (1.7 * i) / (count - 1)));
    return {
      axes: { byTurns: axis },
      solve: (x, into) => {
        // on one form inductance goes by the square of the turns
        const perSquare = woundH(x, shape, 1);
        for (let i = 0; i < count; i++) into.byTurns[i] = perSquare * axis[i] * axis[i];
        return coilOf(x, shape);
      },
    };
  },
  drawing: drawingOf,
  headline: (g) =>
    `The coil is ${g.about("inductance")} and resonates at ${g.about("resonance")}; for ${g.about("wanted")} it needs ${g.about("turnsWanted")} turns on the same form and length.`,
  findings: findingsOf,
});
