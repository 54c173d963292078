import { answers } from "../../ask/declare";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { solve } from "./solve";
import theory from "./theory.md";

export const accessoryProof = answers(ask, {
  theory,
  prepare: () => ({ axes: {}, solve }),
  headline: headlineOf,
  findings: findingsOf,
  drawing: drawingOf,
});
