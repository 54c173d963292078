import { answers } from "../../ask/declare";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf } from "./findings";
import { solveTrim } from "./solve";
import theory from "./theory.md";

export const markerTrim = answers(ask, {
  theory,
  prepare: (_, points) => {
    const error = Float64Array.from({ length: points }, (__, i) => 1e5 + (29.9e6 * i) / (points - 1));
    return {
      axes: { error },
      solve: (x, into) => {
        const y = solveTrim(x);
        for (let i = 0; i < error.length; i++) into.error[i] = y.crystalError * error[i];
        return y;
      },
    };
  },
  drawing: drawingOf,
  headline: (g) =>
    `The crystal is off by ${g.say("crystalError")}${g.best.sign === "unknown" ? ", which way is not known yet" : ""}: ${g.about("errorAtTarget")} at the marker asked for.`,
  findings: findingsOf,
});
