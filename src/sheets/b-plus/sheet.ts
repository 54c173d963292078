import { answers } from "../../ask/declare";
import { firstNode, solveChanged } from "../inputs/supply-law";
import { learntFromChart } from "../inputs/supply-learnt";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { bPlusHeadline, findingsOf, partsOf } from "./findings";
import { baseOf, solveDraw } from "./solve";
import theory from "./theory.md";

export const bPlus = answers(ask, {
  theory,
  learns: learntFromChart,
  prepare: (best) => {
    const b = best;
    const base = baseOf(b);
    const d = base?.described;
    const count = 13;
    const total = b.plateCurrent + b.restCurrent;
    const lineAxis = Float64Array.from({ length: count }, (_, i) => b.ratedLine * (0.8 + (0.35 * i) / (count - 1)));
    const loadAxis = Float64Array.from({ length: count }, (_, i) => (total * 1.6 * i) / (count - 1));
    const held = (a: number) => {
      const t = total > 0 ? a / total : 0;
      return [t * b.plateCurrent, t * b.restCurrent] as const;
    };
    const byLine = Array.from(lineAxis, (lineV) => d && solveChanged(d, { lineV }, base?.solved)?.volts);
    const byLoad = Array.from(loadAxis, (a) => d && solveChanged(d, { held: held(a) }, base?.solved)?.volts);
    // the curves' own solutions are taken once; a draw moves them by what it moves at the set's own line and load
    const scale = (into: Float64Array, from: readonly (readonly number[] | undefined)[], node: number, volts: number): void => {
      const times = volts / (base?.solved.volts[node] ?? Number.NaN);
      for (let i = 0; i < into.length; i++) into[i] = (from[i]?.[node] ?? Number.NaN) * times;
    };
    return {
      axes: {
        firstByLine: lineAxis,
        secondByLine: lineAxis,
        thirdByLine: lineAxis,
        readAtLine: Float64Array.of(b.lineVoltage),
        readAtLoad: Float64Array.of(total),
        firstByLoad: loadAxis,
        secondByLoad: loadAxis,
        thirdByLoad: loadAxis,
      },
      solve: (x, into) => {
        const { volts, results } = solveDraw(x, base);
        const v = volts ?? { first: Number.NaN, second: Number.NaN, third: Number.NaN };
        into.readAtLine[0] = into.readAtLoad[0] = b.measuredFirst ?? Number.NaN;
        scale(into.firstByLine, byLine, firstNode(b), v.first);
        scale(into.secondByLine, byLine, 1, v.second);
        scale(into.thirdByLine, byLine, 2, v.third);
        scale(into.firstByLoad, byLoad, firstNode(b), v.first);
        scale(into.secondByLoad, byLoad, 1, v.second);
        scale(into.thirdByLoad, byLoad, 2, v.third);
        return results;
      },
    };
  },
  drawing: drawingOf,
  headline: bPlusHeadline,
  findings: findingsOf,
  parts: partsOf,
});
