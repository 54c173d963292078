import type { ScaleContinuousNumeric } from "d3-scale";
import type { Drawing } from "./drawing";
import { type Box, type Curve, Ground } from "./ground";
import { alongLeader, boxOfText, type Label, labelFor, stayingAt, type Wanted } from "./labels";
import { linesWithin } from "./text-width";

/** A field with its scales, before anything in it is named. */
export interface Canvas {
  readonly d: Drawing;
  readonly plot: Box & { readonly type: number };
  readonly sx: ScaleContinuousNumeric<number, number>;
  readonly sy: ScaleContinuousNumeric<number, number>;
}
export interface Name extends Wanted {
  readonly tone: "ink" | "accent" | "faint";
  readonly kind: "trace" | "place" | "floor";
  readonly dash: boolean;
}
/** Names with their places: in the field, and those that found no room there in rows above it, each behind a sample of its line. */
export interface Named<C> extends Stood {
  readonly canvas: C;
  /** every curve as it is drawn there */
  readonly curves: readonly Curve[];
  readonly inField: readonly (Name & { readonly at: Label })[];
  readonly above: readonly (Name & { readonly lines: readonly string[]; readonly x: number; readonly y: number })[];
}
/** Where names stood in the same picture a moment ago. */
export interface Stood {
  readonly inField: readonly { readonly text: string; readonly at: Label }[];
  readonly above: readonly { readonly text: string }[];
}
/** Width of a sample of a line, in letters' heights. */
export const sampleEm = 1.6;

const onScales = new WeakMap<readonly number[], { readonly scales: string; readonly x: readonly number[]; readonly curve: Curve }>();
/** Curves as they are drawn; one whose numbers and scales stand is not worked out again. */
function curvesOf({ d, sx, sy }: Canvas): readonly Curve[] {
  const [floor] = sy.domain();
  const scales = [d.xLog, ...sx.domain(), ...sx.range(), ...sy.domain(), ...sy.range()].join(" ");
  return d.traces.map(({ x, y }) => {
    const known = onScales.get(y);
    if (known?.scales === scales && known.x === x) return known.curve;
    const curve: [number, number][] = [];
    for (let i = 0; i < x.length; i++) if (y[i] >= floor) curve.push([sx(x[i]), sy(y[i])]);
    onScales.set(y, { scales, x, curve });
    return curve;
  });
}
/** What was measured and lies in the field. */
export const dotsOf = ({ d, plot, sx, sy }: Canvas, which = d.points ?? []): Curve =>
  which.flatMap((p) =>
    p.x
      .map((x, i): [number, number] => [sx(x), sy(p.y[i])])
      .filter(([x, y]) => x >= plot.x && x <= plot.x + plot.width && y >= plot.y - 1 && y <= plot.y + plot.height + 1),
  );
/** Where this set stands along the x axis, as far as it lies in the field. */
export const placesOf = ({ d, plot, sx }: Canvas): readonly { readonly x: number; readonly label: string }[] =>
  (d.places ?? []).map((p) => ({ x: sx(p.x), label: p.label })).filter(({ x }) => x >= plot.x && x <= plot.x + plot.width);

const steps = Array.from({ length: 41 }, (_, i) => i / 40);
function namesOf(c: Canvas, curves: readonly Curve[], bare: boolean): readonly Name[] {
  const { d, plot, sy } = c;
  const places = placesOf(c).map(
    ({ x, label }): Name => ({
      text: label,
      near: steps.map((s) => [x, plot.y + s * plot.height] as const),
      best: "start",
      tone: "accent",
      kind: "place",
      dash: true,
    }),
  );
  const traces = d.traces.flatMap((t, k): Name[] =>
    curves[k].length === 0 || t.label === ""
      ? []
      : [{ text: t.label, near: curves[k], best: "middle", tone: t.stroke, kind: "trace", dash: t.dash }],
  );
  const floor: Name[] =
    !bare && d.floor && d.floor.y > sy.domain()[0]
      ? [
          {
            text: d.floor.label,
            near: steps.map((s) => [plot.x + s * plot.width, sy(d.floor!.y)] as const),
            best: "middle",
            tone: "faint",
            kind: "floor",
            dash: true,
          },
        ]
      : [];
  return [...places, ...traces, ...floor];
}

/** Names in rows above the field, as many to a row as its width takes. */
function rowsOf(names: readonly Name[], { plot }: Canvas, top: number) {
  const { type } = plot;
  const before = type * (sampleEm + 0.4);
  let [x, y, rows] = [plot.x, top, 1];
  const above = names.map((name) => {
    const lines = linesWithin(name.text, plot.width - before - 4, type);
    const width = before + Math.max(...lines.map((l) => boxOfText(l, type).width));
    if (x > plot.x && x + width > plot.x + plot.width) [x, y, rows] = [plot.x, y + rows * type * 1.3, 1];
    const here = { ...name, lines, x, y };
    x += width + type * 0.8;
    rows = Math.max(rows, lines.length);
    return here;
  });
  return { above, height: names.length === 0 ? 0 : y + rows * type * 1.3 - top };
}

/**
 * Gives every curve, place and level of a picture its name: in the field beside what it names; what finds no room there stands above the field, in a picture that much higher.
 *
 * @param canvasWith the field with so much height free above it
 * @param bare whether the caption tells what a floor means
 * @param stood where names stood a moment ago, while a hand moves what they name: they stay as long as they can
 * @returns every name once
 */
export function named<C extends Canvas>(canvasWith: (aboveHeight: number) => C, bare: boolean, stood?: Stood): Named<C> {
  const out = new Set(stood?.above.map((n) => n.text));
  const first = canvasWith(0);
  const firstCurves = curvesOf(first);
  const wanted = namesOf(first, firstCurves, bare);
  for (;;) {
    const { above, height } = rowsOf(
      wanted.filter((n) => out.has(n.text)),
      first,
      first.plot.y,
    );
    const canvas = height === 0 ? first : canvasWith(height);
    const curves = canvas === first ? firstCurves : curvesOf(canvas);
    const ground = new Ground({
      plot: canvas.plot,
      curves,
      dots: dotsOf(canvas),
      uprights: placesOf(canvas).map((p) => p.x),
    });
    const taken: Box[] = [];
    const all = namesOf(canvas, curves, bare).filter((n) => !out.has(n.text));
    const inField = all.flatMap((n) => {
      const was = stood?.inField.find((p) => p.text === n.text);
      const at = (was && stayingAt(n, was.at, ground, taken)) ?? labelFor(n, ground, taken);
      if (at) taken.push(at, ...alongLeader(at));
      return at ? [{ ...n, at }] : [];
    });
    const left = all.find((n) => !inField.some((p) => p.text === n.text));
    if (left === undefined) return { canvas, curves, inField, above };
    out.add(left.text);
  }
}
