import { frequencyAxis } from "../../ask/axes";
import { answers } from "../../ask/declare";
import { printValue } from "../../units/print";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf } from "./findings";
import { overTravel, solvePhasing } from "./solve";
import theory from "./theory.md";

const pf = (farad: number): string => printValue(farad, "capacitance");

export const phasing = answers(ask, {
  theory,
  refuse: (x, bad) => {
    if (!(x.phasingHigh > x.phasingLow)) return bad("phasingHigh", "crossed", pf(x.phasingHigh), "more than phasingLow");
    if (x.phasing < x.phasingLow || x.phasing > x.phasingHigh)
      return bad("phasing", "out-of-travel", pf(x.phasing), `within its travel, ${pf(x.phasingLow)} to ${pf(x.phasingHigh)}`);
    return Math.abs(x.crystalSeries / x.intermediate - 1) > 0.03
      ? bad(
          "crystalSeries",
          "far-off",
          printValue(x.crystalSeries, "frequency", 100),
          `within 3 % of the IF, ${printValue(x.intermediate, "frequency", 100)}`,
        )
      : undefined;
  },
  prepare: (best, points, { wanted }) => {
    const axis = frequencyAxis(best.crystalSeries, 12e3, Math.min(points, 241));
    return {
      axes: { asItStands: axis, balanced: axis },
      solve: (x, into, draw) => solvePhasing(x, axis, into, (curve) => wanted(curve, draw)),
    };
  },
  drawing: drawingOf,
  headline: (g) =>
    `The phasing is neutral at ${g.about("neutral")}; the filter peaks ${g.about("peakOff")} off the IF and is ${g.about("width")} wide.`,
  findings: findingsOf,
  tables: (x) => [
    {
      id: "phasing",
      title: "Notch and peak against the phasing capacitor",
      columns: [
        { name: "phasing", dimension: "capacitance" },
        { name: "notch off the crystal", dimension: "frequency", u: 20 },
        { name: "notch depth", dimension: "decibel", u: 0.5 },
        { name: "peak off the crystal", dimension: "frequency", u: 1 },
      ],
      rows: overTravel(x),
    },
  ],
});
