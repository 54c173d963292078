import type { Answer } from "../../ask/answered";
import type { FigureSpec } from "../../ask/drawings";
import { readAs } from "../../job/readings-in";
import type { JobView } from "../../job/view";
import { unitFor } from "../../units/print";
import type { Drawing } from "./drawing";

/** Levels below its peak that are drawn, dB. */
const depth = 60;

/**
 * Points of the last sweep of the IF, or the last as found, over an answer's curve, in the units that the curve is drawn in.
 *
 * @param view the job
 * @param spec the picture, which says whether a sweep lies over it
 * @param answer the answer that it shows
 * @returns points, each level against the sweep's own peak; undefined where none is shown or none was read
 */
export function sweepOver(view: JobView, spec: FigureSpec, answer: Answer): Drawing["points"] {
  const curve = answer.curves[spec.traces[0].curve];
  const last = spec.overSweep
    ? readAs(view.inForce, "if-sweep").findLast(({ reading: r }) => spec.overSweep === "last" || r.state === "as-found")?.reading
    : undefined;
  const { frequencyHz: hz = [], levelDb: db = [] } = last?.columns ?? {};
  if (!curve || hz.length < 2 || hz.length !== db.length) return undefined;
  const { factor } = unitFor(Math.max(Math.abs(curve.x[0]), Math.abs(curve.x[curve.x.length - 1])), curve.xDimension);
  const peak = db.reduce((m, v) => Math.max(m, v), Number.NEGATIVE_INFINITY);
  return [{ x: hz.map((v) => v / factor), y: db.map((v) => v - peak) }];
}

/**
 * The last sweep of the IF as found and the last as left, each against its own peak, over one axis.
 *
 * @param view the job
 * @returns a drawing; undefined where no sweep was read
 */
export function sweepsDrawing(view: JobView): Drawing | undefined {
  const last = (state: "as-found" | "as-left") => readAs(view.inForce, "if-sweep").findLast((e) => e.reading.state === state)?.reading;
  const traces = (["as-found", "as-left"] as const).flatMap((state) => {
    const r = last(state);
    const hz = r?.columns.frequencyHz ?? [];
    const db = r?.columns.levelDb ?? [];
    if (!r || hz.length < 2 || hz.length !== db.length) return [];
    const peak = db.reduce((m, v) => Math.max(m, v), Number.NEGATIVE_INFINITY);
    const found = state === "as-found";
    return [
      {
        label: `${found ? "as found" : "as left"}${r.invented ? ", INVENTED" : ""}`,
        stroke: found ? ("accent" as const) : ("ink" as const),
        dash: found,
        x: hz.map((v) => v / 1000),
        y: db.map((v) => v - peak),
      },
    ];
  });
  return traces.length === 0
    ? undefined
    : {
        id: "sweeps",
        title: "What the IF passes: level against frequency",
        xLabel: "frequency, kHz",
        yLabel: "below its peak, dB",
        xLog: false,
        example: false,
        traces,
        yFrom: -depth,
      };
}
