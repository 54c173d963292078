import type { JobView } from "../../job/view";
import type { Drawing } from "./drawing";

/** Levels below its peak that are drawn, dB. */
const depth = 60;

/**
 * The last sweep of the IF as found and the last as left, each against its own peak, over one axis.
 *
 * @param view the job
 * @returns a drawing; undefined where no sweep was read
 */
export function sweepsDrawing(view: JobView): Drawing | undefined {
  const last = (state: "as-found" | "as-left") => view.readings.filter((r) => r.as === "if-sweep" && r.state === state).at(-1);
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
