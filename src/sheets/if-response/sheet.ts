import { frequencyAxis, roundSpanHz } from "../../ask/axes";
import { answers } from "../../ask/declare";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf } from "./findings";
import { responseSolver } from "./solve";
import theory from "./theory.md";

export const ifResponse = answers(ask, {
  theory,
  prepare: ({ strip }, points) => {
    const solver = responseSolver();
    const { width20dB } = solver.solve(strip);
    const wide = typeof width20dB === "number" ? width20dB : 40_000;
    const axis = frequencyAxis(strip.intermediateFrequency, roundSpanHz(wide * 1.2), points);
    return {
      axes: { response: axis },
      solve: (x, into) => {
        const y = solver.solve(x.strip);
        solver.fill(axis, into.response);
        return y;
      },
    };
  },
  drawing: drawingOf,
  headline: (g) =>
    `The strip passes ${g.say("width6dB")} at -6 dB: AM audio to ${g.about("audioBandwidthAm")}, a signal 5 kHz away ${g.about("adjacentRejection5kHz")} down.`,
  findings: findingsOf,
});
