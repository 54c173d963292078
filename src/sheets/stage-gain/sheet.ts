import { answers, type Refuse } from "../../ask/declare";
import type { Issue } from "../../units/issue";
import { type Asked, ask } from "./ask";
import { drawingOf } from "./drawing";
import { findingsOf, headlineOf } from "./findings";
import { dbOf, gainsBy, lostAtBest, points } from "./solve";
import theory from "./theory.md";

export const stageGain = answers(ask, {
  theory,
  refuse: refused,
  prepare: (best, _points, chance) => {
    const axis = Float64Array.from(best.injected, (_, i) => i + 1);
    return { axes: { chart: axis, measured: axis }, varies: true, solve: gainsBy(best, chance) };
  },
  drawing: drawingOf,
  headline: headlineOf,
  findings: findingsOf,
  tables: (x) => {
    const { injected } = x;
    const lost = lostAtBest(x);
    const at = (name: string) => ({ name, dimension: "decibel", u: 0.3 }) as const;
    const gained = (of: "measured" | "chart", i: number): number => (i > 0 ? dbOf(injected[i - 1][of] / injected[i][of]) : Number.NaN);
    return [
      {
        id: "stages",
        title: "Point by point",
        columns: [
          { name: "point", dimension: "ratio" },
          { name: "chart", dimension: "voltage" },
          { name: "measured", dimension: "voltage" },
          at("gain to the point before"),
          at("by the chart"),
          at("this stage short by"),
        ],
        rows: injected.map((p, i) => [points[p.point], p.chart, p.measured, gained("measured", i), gained("chart", i), lost[i]]),
      },
    ];
  },
});

/** Levels that are none, or not from the output back to the antenna. */
function refused({ injected }: Asked, bad: Refuse): Issue | undefined {
  if (injected.length < 2) return bad("injected", "too-few", `${injected.length} points`, "at least 2 points of injection");
  for (const [i, p] of injected.entries()) {
    const where = `injected row ${i + 1}`;
    if (!(p.measured > 0) || p.measured > 100) return bad(where, "not-a-level", String(p.measured), "volts above 0, such as 850 µV");
    if (i > 0 && p.point <= injected[i - 1].point)
      return bad(where, "out-of-order", points[p.point], `a point nearer the antenna than ${points[injected[i - 1].point]}`);
  }
  return undefined;
}
