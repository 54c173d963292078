import { answers } from "../../ask/declare";
import { StripResponse } from "../../physics/if-strip";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { connectorV, solveBlock } from "./solve";
import theory from "./theory.md";

export const dcBlock = answers(ask, {
  theory,
  prepare: (_, points) => {
    const leakOhm = Float64Array.from({ length: points }, (__, i) => 10 ** (4 + (7 * i) / (points - 1)));
    const strip = new StripResponse();
    return {
      axes: { connector: leakOhm },
      solve: (x, into) => {
        const y = solveBlock(x, strip);
        for (let i = 0; i < leakOhm.length; i++) into.connector[i] = connectorV(x, y.noLoadBPlus, leakOhm[i]);
        return y;
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
});
