import { answers } from "../../ask/declare";
import { printExact } from "../../units/print";
import { ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { settingOf } from "./solve";
import theory from "./theory.md";

export const setPoints = answers(ask, {
  theory,
  refuse: ({ marks }, bad) => {
    if (new Set(marks.map((m) => m.is)).size < 2)
      return bad("marks", "too-few", `${marks.length} marks`, "at least two different markers along the scale");
    const far = marks.findIndex((m) => Math.abs(m.says / m.is - 1) > 0.1);
    if (far < 0) return undefined;
    const read = `${printExact(marks[far].says, "frequency")} and ${printExact(marks[far].is, "frequency")}`;
    return bad(`marks row ${far + 1}`, "not-one-mark", read, "a mark and the marker near it");
  },
  prepare: ({ marks, ...best }, _points, chance) => {
    const order = marks.map((_, i) => i).sort((a, b) => marks[a].says - marks[b].says);
    const axis = Float64Array.from(order, (i) => marks[i].says);
    const streams = marks.map((_, i) => chance.stream(`mark ${i}`));
    const prepared = settingOf({ marks, ...best });
    const high = Math.max(0, ...prepared.lever);
    return {
      axes: { now: axis, after: axis },
      varies: true,
      solve: (x, into, draw) => {
        // the marks are not drawn; an IF is where somebody tries one with a spread
        const { now, worstNow, move } = x.intermediate === best.intermediate ? prepared : settingOf(x);
        const { left, ...y } = draw < 0 ? move() : move(x.markReading, (i) => streams[i][draw]);
        for (const [k, i] of order.entries()) {
          into.now[k] = now[i];
          into.after[k] = left[i];
        }
        return { ...y, shiftHigh: y.shift * high, worstNow, overTolerance: Math.abs(y.worstLeft) - x.tolerance };
      },
    };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  tables: (x) => {
    const at = (name: string, u: number) => ({ name, dimension: "frequency" as const, u });
    const { now, move } = settingOf(x);
    const { left } = move();
    return [
      {
        id: "marks",
        title: "Marks before and after",
        columns: [at("scale says", 50), { name: "truth", dimension: "frequency", exact: true }, at("off now", 50), at("off after", 50)],
        rows: x.marks.map((m, i) => [m.says, m.is, now[i], left[i]]),
      },
    ];
  },
});
