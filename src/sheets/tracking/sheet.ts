import { answers } from "../../ask/declare";
import { printValue } from "../../units/print";
import { lowerFirst } from "../../units/sentence";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf } from "./findings";
import { refused } from "./refuse";
import { trackingSolver } from "./solve";
import { effects } from "./tables";
import theory from "./theory.md";
import { blamedIn } from "./verdict";

const grid = 81;

export const tracking = answers(ask, {
  theory,
  refuse: refused,
  prepare: (best, _points, chance) => {
    const axis = Float64Array.from({ length: grid }, (_, i) => best.low * (best.high / best.low) ** (i / (grid - 1)));
    const heard = best.readings.filter((r) => Number.isFinite(r.received));
    const solve = trackingSolver(best, axis, chance);
    return {
      varies: best.readings.length + best.peaks.length > 0,
      axes: {
        error: axis,
        loss: axis,
        coilMore: axis,
        trimmerMore: axis,
        padderMore: axis,
        straysMore: axis,
        read: Float64Array.from(heard, (r) => r.dial),
      },
      solve: (x, into, draw) => {
        into.read.set(heard.map((r) => r.received - r.dial));
        return solve(x, into, draw);
      },
    };
  },
  drawing: drawingOf,
  headline: (g) => {
    const design = `At best the oscillator is ${g.about("worst")} off what the signal circuit needs on this band, which costs ${g.about("worstLoss")} there.`;
    const said = blamedIn(g);
    const band = `On ${printValue(g.best.low, "frequency", g.best.low / 200)} to ${printValue(g.best.high, "frequency", g.best.low / 200)}: `;
    return said
      ? `${band}${lowerFirst(said)} ${design}`
      : `${band}${lowerFirst(design)} ${g.figures.coil.low === null ? "Its parts can't be worked out." : "Read the dial near both ends and in the middle to tell which part is off."}`;
  },
  findings: findingsOf,
  tables: effects,
});
