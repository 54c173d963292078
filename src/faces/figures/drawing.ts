import type { Answer, AnsweredCurve } from "../../ask/answered";
import type { FigureSpec, Trace } from "../../ask/drawings";
import { dimensionOf } from "../../units/dimensions";
import { unitFor } from "../../units/print";

/** A figure with its numbers, in the units it is drawn in. Screen, print and terminal draw the same one. */
export interface DrawnTrace {
  readonly label: string;
  readonly stroke: Trace["stroke"];
  readonly dash: boolean;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly low?: readonly number[];
  readonly high?: readonly number[];
}
export interface Drawing {
  readonly id: string;
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly xLog: boolean;
  /** drawn from a sheet's own example, and nothing of this set */
  readonly example: boolean;
  readonly traces: readonly DrawnTrace[];
  readonly yFrom?: number;
  readonly floor?: { readonly y: number; readonly label: string };
  /** what was measured, in the units of the axes; named where the sheet names it */
  readonly points?: readonly { readonly x: readonly number[]; readonly y: readonly number[]; readonly label?: string }[];
  /** where this set stands along the x axis */
  readonly places?: readonly { readonly x: number; readonly label: string }[];
}

const kept = new WeakMap<Float64Array, { readonly factor: number; readonly values: readonly number[] }>();
/** Numbers in the units that they are drawn in: the same list as before for the same numbers, so that what stands is not drawn anew. */
function inUnits(si: Float64Array, factor: number): readonly number[] {
  const known = kept.get(si);
  if (known?.factor === factor) return known.values;
  const values = Array.from(si, (v) => v / factor);
  kept.set(si, { factor, values });
  return values;
}
const spans = (c: AnsweredCurve): number => Math.max(Math.abs(c.x[0]), Math.abs(c.x[c.x.length - 1]));

/**
 * Turns a sheet's figure into numbers to draw: one unit for each axis, a logarithmic x axis where it spans more than three decades.
 *
 * @param spec the figure as the sheet declares it
 * @param answer the answer it shows
 * @returns the drawing
 */
export function drawingOf(spec: FigureSpec, answer: Answer): Drawing {
  const curvesOf = (measured: boolean) =>
    spec.traces
      .filter((t) => (t.points === true) === measured)
      .map((t) => ({ t, c: answer.curves[t.curve] }))
      .filter(({ c }) => !measured || c.y.some(Number.isFinite));
  const drawn = curvesOf(false);
  const curves = [...drawn, ...curvesOf(true)].map(({ c }) => c);
  const first = curves[0];
  const xLog = first.x[0] > 0 && first.x[first.x.length - 1] / first.x[0] > 1000;
  const xUnit = xLog ? { unit: dimensionOf(first.xDimension).si, factor: 1 } : unitFor(spans(first), first.xDimension);
  const top = Math.max(...curves.map((c) => c.y.reduce((m, v) => Math.max(m, Math.abs(v)), 0)));
  const yUnit = first.yDimension === "decibel" ? { unit: "dB", factor: 1 } : unitFor(top, first.yDimension);
  const xs = (c: AnsweredCurve) => inUnits(c.x, xUnit.factor);
  const ys = (a: Float64Array) => inUnits(a, yUnit.factor);
  const bandOf = (t: Trace, { band }: AnsweredCurve) => (t.band && band ? { low: ys(band.low), high: ys(band.high) } : {});
  const named = (label: string, unit: string) => (unit === "" ? label : `${label}, ${unit}`);
  return {
    id: spec.id,
    title: spec.title,
    xLabel: named(spec.xLabel, xUnit.unit),
    yLabel: named(spec.yLabel, yUnit.unit || dimensionOf(first.yDimension).si),
    xLog,
    example: answer.unread.length > 0,
    traces: drawn.map(({ t, c }) => ({
      label: t.label,
      stroke: t.stroke,
      dash: t.dash ?? false,
      x: xs(c),
      y: ys(c.y),
      ...bandOf(t, c),
    })),
    points: curvesOf(true).map(({ t, c }) => ({ label: t.label, x: xs(c), y: ys(c.y) })),
    places: (spec.marks ?? []).flatMap((m) => {
      const f = answer.results[m.at];
      const on = answer.quantities.find((q) => q.path === m.at)?.quantity;
      if (m.known && (on === undefined || on.origin === "assumed")) return [];
      const said = on?.value;
      const x = said ?? f?.value ?? (f?.low != null && f.high != null && f.without < 0.5 ? (f.low + f.high) / 2 : undefined);
      return x === undefined || x === null ? [] : [{ x: x / xUnit.factor, label: m.label }];
    }),
    ...(spec.yFrom === undefined ? {} : { yFrom: spec.yFrom }),
    ...(spec.floor === undefined ? {} : { floor: spec.floor }),
  };
}

/** Whether a figure of an answer has anything to draw. */
export const hasValues = (spec: FigureSpec, answer: Answer): boolean =>
  spec.traces.some((t) => answer.curves[t.curve]?.y.some(Number.isFinite));

const ends = new WeakMap<readonly number[], readonly [number, number]>();
/** Least and greatest of what is finite among numbers; the numbers of a picture stand, so they are looked through once. */
function endsOf(values: readonly number[]): readonly [number, number] {
  const known = ends.get(values);
  if (known) return known;
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const v of values) {
    if (!Number.isFinite(v)) continue;
    if (v < least) least = v;
    if (v > most) most = v;
  }
  ends.set(values, [least, most]);
  return [least, most];
}
/** Extent of a drawing in its own units. */
export function extentOf(d: Drawing): { readonly x: readonly [number, number]; readonly y: readonly [number, number] } {
  const named = (d.points ?? []).filter((p) => p.label !== undefined);
  const xs = [...d.traces.flatMap((t) => [t.x[0], t.x[t.x.length - 1]]), ...named.flatMap((p) => endsOf(p.x))].filter(Number.isFinite);
  const ys = [...d.traces.flatMap((t) => [t.y, t.low ?? [], t.high ?? []]), ...named.map((p) => p.y)].map(endsOf);
  const top = Math.max(...ys.map(([, most]) => most));
  const bottom = Math.max(d.yFrom ?? Number.NEGATIVE_INFINITY, Math.min(...ys.map(([least]) => least)));
  const pad = (top - bottom) * 0.05 || 1;
  return { x: [Math.min(...xs), Math.max(...xs)], y: [bottom, top + pad] };
}
