import { answers, type NamesOf, noneOf } from "../../ask/declare";
import { printExact } from "../../units/print";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf } from "./findings";
import { choose, converterSolver, hz } from "./solve";
import { planStrips } from "./strips";
import { tablesOf } from "./tables";
import theory from "./theory.md";

const mostPoints = 101;
const allNames = Object.keys(ask.results) as NamesOf<typeof ask>[];

export const converter = answers(ask, {
  theory,
  ahead: (x, chance) => choose(x, chance.progress),
  prepare: (best, points, _, made) => {
    const count = Math.min(points, mostPoints);
    const axis = Float64Array.from({ length: count }, (__, i) => best.wantedLow + ((best.wantedHigh - best.wantedLow) * i) / (count - 1));
    const axes = { image: axis, past: axis, ownImage: axis };
    return made.ok
      ? { axes, solve: converterSolver(best, made.value.taken, axis) }
      : { axes, solve: () => noneOf(allNames, "refused"), issues: made.issues };
  },
  drawing: drawingOf,
  headline: (g, made) => {
    if (!made.ok) return "No crystal will do.";
    const { plan } = made.value.taken;
    return `${g.best.crystal > 0 ? "With" : "Take"} a crystal of ${hz(plan.crystalHz)}: ${hz(plan.lowHz)} to ${hz(plan.highHz)} is heard from ${g.about("dialAtLow")} to ${g.about("dialAtHigh")} on the dial${plan.side === "above" ? ", backward" : ""}; the image is ${g.about("imageRejection")} down.`;
  },
  findings: (g, put, made) => {
    if (made.ok) findingsOf(g, put, made.value.taken);
  },
  parts: (g, made) => {
    // the crystal that is on record is there: nothing is to be bought
    if (!made.ok || g.isAssumed("wantedLow") || (g.best.crystal > 0 && !g.isAssumed("crystal"))) return [];
    const { plan, overtone } = made.value.taken;
    return [
      {
        part: "Crystal of the converter",
        was: "",
        value: printExact(Math.round(plan.crystalHz), "frequency"),
        rating:
          overtone === 1
            ? "fundamental, 20 or 30 pF load as the circuit has it"
            : `${overtone === 3 ? "third" : "fifth"} overtone, series resonance`,
        kind: "quartz, in a holder that fits",
        quantity: 1,
        why: `puts ${hz(plan.lowHz)} to ${hz(plan.highHz)} on the dial from ${g.about("dialAtLow")}`,
      },
    ];
  },
  strips: (x, made) => (made.ok ? [planStrips(x, made.value.taken)] : []),
  tables: (x, made) => (made.ok ? tablesOf(x, made.value) : []),
});
