import { answers } from "../../ask/declare";
import { printValue } from "../../units/print";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf, partsOf } from "./findings";
import { solve } from "./solve";
import theory from "./theory.md";

export const regulator = answers(ask, {
  theory,
  refuse: (x, bad) =>
    x.loadLeast > x.loadMost
      ? bad("loadLeast", "crossed", printValue(x.loadLeast, "current"), `no more than loadMost, ${printValue(x.loadMost, "current")}`)
      : undefined,
  prepare: () => ({ axes: {}, solve }),
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  parts: partsOf,
});
