import { format } from "d3-format";
import { scaleLinear, scaleLog } from "d3-scale";
import { area, line } from "d3-shape";
import { type Drawing, extentOf } from "./drawing";
import type { Box, Curve } from "./ground";
import { dotsOf, type Named, named, placesOf, type Stood } from "./named";
import { strokeOf, writtenNames } from "./svg-names";
import { dayInk, escaped, type Ink, markupOf, type Path, type Placed, round } from "./svg-parts";
import { textWidth } from "./text-width";
import { turnsOf } from "./turns";

export { dayInk, type Ink } from "./svg-parts";

/** The word across a picture that shows nothing of this set. */
export const exampleAcross = (width: number, height: number, colour: string): string =>
  `<text class="example" transform="translate(${width / 2} ${height / 2}) rotate(-14)" text-anchor="middle" font-size="${round(Math.min(width / 7, height / 2.2))}" font-weight="bold" letter-spacing="4" fill="${colour}" fill-opacity="0.35">EXAMPLE</text>`;

export interface Size {
  readonly width: number;
  readonly height: number;
  /** height of the letters in the same unit: 10 in print, 16 on a screen */
  readonly type?: number;
  /** without the words at the axes: a caption tells them */
  readonly bare?: boolean;
}
/** Between a figure and the field that it stands beside. */
const tickGap = 6;
type Scale = ReturnType<typeof scaleLinear<number, number>> | ReturnType<typeof scaleLog<number, number>>;
/** What every part of the picture is drawn with. */
interface Frame {
  readonly d: Drawing;
  readonly plot: Box & { readonly type: number };
  readonly size: Size;
  readonly sx: Scale;
  readonly sy: ReturnType<typeof scaleLinear<number, number>>;
  readonly ink: Ink;
}
/** How many figures stand beside a field of a height. */
const upCount = (height: number, type: number): number => Math.max(3, Math.min(6, Math.floor(height / (type * 2.4))));
/** Room left of the field: for its widest figure, and for what the axis is, which never lies over a figure. */
function leftOf(upright: ReturnType<typeof scaleLinear<number, number>>, height: number, size: Size): number {
  const type = size.type ?? 10;
  const up = upCount(height, type);
  const said = upright.ticks(up).map(upright.tickFormat(up));
  const figures = Math.max(...said.map((t) => textWidth(t, type))) + tickGap;
  return Math.max(type * (size.bare ? 3.4 : 5.1), figures + type * (size.bare ? 0.2 : 1.8));
}
function frameOf(d: Drawing, size: Size, ink: Ink, above: number): Frame {
  const type = size.type ?? 10;
  const margin = {
    right: type * 1.6,
    top: type * (size.bare ? 0.8 : 1.2),
    bottom: type * (size.bare ? 1.8 : 3.9),
  };
  const { x, y } = extentOf(d);
  const height = size.height - margin.top - margin.bottom;
  const upright = scaleLinear()
    .domain(y)
    .nice(Math.max(3, Math.round(height / (type * 4))));
  const left = leftOf(upright, height, size);
  const plot = {
    x: left,
    y: margin.top + above,
    width: size.width - left - margin.right,
    height,
    type,
  };
  const sx = (d.xLog ? scaleLog() : scaleLinear()).domain(x).range([plot.x, plot.x + plot.width]);
  const sy = upright.range([plot.y + plot.height, plot.y]);
  return { d, plot, size: { ...size, height: size.height + above }, sx, sy, ink };
}

/** Rules with their figures, and what the axes are. */
function axes({ d, plot, size, sx, sy, ink }: Frame): string[] {
  const { type } = plot;
  const across = Math.max(2, Math.min(6, Math.floor(plot.width / (type * 6))));
  const up = upCount(plot.height, type);
  const ticks = sx.ticks(across);
  // between places that are counted there is nothing to mark
  const isCounted = !d.xLog && d.traces.every((t) => t.x.every(Number.isInteger));
  const whole = isCounted ? ticks.filter(Number.isInteger) : ticks;
  const xt = d.xLog ? ticks.filter((v) => Number.isInteger(Math.round(Math.log10(v) * 1e6) / 1e6)) : whole;
  const xf = d.xLog ? format("~s") : whole.length < ticks.length ? String : sx.tickFormat(across);
  const yf = sy.tickFormat(up);
  const rule = `stroke="${ink.rule}" stroke-width="0.7" fill="none"`;
  const text = `font-size="${type}" fill="${ink.ink}"`;
  const [right, foot] = [plot.x + plot.width, plot.y + plot.height];
  const words = [
    `<text class="axis" x="${round(plot.x + plot.width / 2)}" y="${round(size.height - type * 0.6)}" text-anchor="middle" ${text}>${escaped(d.xLabel)}</text>`,
    `<text class="axis" transform="translate(${round(type * 1.2)} ${round(plot.y + plot.height / 2)}) rotate(-90)" text-anchor="middle" ${text}>${escaped(d.yLabel)}</text>`,
  ];
  return [
    ...sy
      .ticks(up)
      .map(
        (v) =>
          `<path class="rule" d="M${round(plot.x)} ${round(sy(v))}H${round(right)}" ${rule}/><text class="tick" x="${round(plot.x - tickGap)}" y="${round(sy(v) + type * 0.35)}" text-anchor="end" ${text}>${escaped(yf(v))}</text>`,
      ),
    ...xt.map(
      (v) =>
        `<path class="rule" d="M${round(sx(v))} ${round(plot.y)}V${round(foot)}" ${rule}/><text class="tick" x="${round(sx(v))}" y="${round(foot + type * 1.35)}" text-anchor="middle" ${text}>${escaped(xf(v))}</text>`,
    ),
    ...(size.bare ? [] : words),
  ];
}

/** Where a band stands: x, and its two sides. */
type Edge = readonly [number, number, number];
/** The 95 % interval of each trace that has one, as a band. */
function bands({ d, plot, sx, sy, ink }: Frame): Path[] {
  const clip = (v: number): number => Math.min(plot.y + plot.height, Math.max(plot.y, sy(v)));
  return d.traces.flatMap((t) => {
    const { low, high } = t;
    if (!low || !high) return [];
    const edges = t.x.map((x, i): Edge => [sx(x), clip(low[i]), clip(high[i])]);
    const band = area<Edge>()
      .x((e) => e[0])
      .y0((e) => e[1])
      .y1((e) => e[2]);
    const look = `class="band ${t.stroke}" fill="${ink[t.stroke]}" fill-opacity="0.14"`;
    return [{ look, d: band.digits(wayDigits)(turnsOf(edges, ([x]) => x, [([, low]) => low, ([, , high]) => high])) ?? "" }];
  });
}

/** The level below which the figure says less. */
const floorOf = ({ d, plot, sy, ink }: Frame): Path[] =>
  d.floor && d.floor.y > sy.domain()[0]
    ? [
        {
          look: `class="floor" stroke="${ink.faint}" stroke-width="1" stroke-dasharray="2 4" fill="none"`,
          d: `M${round(plot.x)} ${round(sy(d.floor.y))}H${round(plot.x + plot.width)}`,
        },
      ]
    : [];

/** What was measured, point by point: it lies over its curve or shows how far it does not. */
function points(frame: Frame): string {
  const { d, plot, ink } = frame;
  const dots = (d.points ?? []).flatMap((p) => {
    // a few readings are seen from the arm's length; a sweep's hundreds lie as a grain over the curve
    const r = round(plot.type * (p.x.length > 40 ? 0.16 : 0.28));
    return dotsOf(frame, [p]).map(([x, y]) => `<circle class="point" cx="${round(x)}" cy="${round(y)}" r="${r}"/>`);
  });
  const stroke = plot.type > 12 ? 1.6 : 1;
  return dots.length === 0 ? "" : `<g class="points" fill="${ink.paper}" stroke="${ink.ink}" stroke-width="${stroke}">${dots.join("")}</g>`;
}

/** Where this set stands: an upright line at a value. */
const places = (frame: Frame): Path[] =>
  placesOf(frame).map(({ x }) => ({
    look: `class="place" stroke="${frame.ink.accent}" stroke-width="1.4" stroke-dasharray="2 3" fill="none"`,
    d: `M${round(x)} ${round(frame.plot.y)}V${round(frame.plot.y + frame.plot.height)}`,
  }));

/** Digits after the point of a way: a twentieth of a px is seen by nobody. */
const wayDigits = 1;
const traces = ({ canvas: frame, curves }: Named<Frame>): Path[] =>
  curves.map((curve, k) => {
    const { stroke, dash } = frame.d.traces[k];
    const look = `class="trace ${stroke}" fill="none" stroke="${frame.ink[stroke]}" stroke-width="${strokeOf(frame.plot.type, stroke)}"${dash ? ' stroke-dasharray="6 4"' : ""}`;
    return { look, d: wayOf(curve) };
  });
const ways = new WeakMap<Curve, string>();
/** A curve as it is written; one that stands is not written again. */
function wayOf(curve: Curve): string {
  const known = ways.get(curve) ?? line<Curve[number]>().digits(wayDigits)(turnsOf(curve, ([x]) => x, [([, y]) => y])) ?? "";
  ways.set(curve, known);
  return known;
}

/** A figure as drawn: what lies under its lines, the lines, what lies over them, and where its names stand. */
export interface Drawn {
  readonly size: Size;
  /** its scales with what stands at them: a picture on the same has the same axes */
  readonly scales: string;
  readonly head: string;
  readonly under: string;
  readonly paths: readonly Path[];
  readonly points: string;
  readonly leads: readonly Path[];
  readonly names: readonly Placed[];
  readonly across: string;
  readonly stood: Stood;
}
const scalesOf = ({ d, plot, size, sx, sy }: Frame): string =>
  [d.id, d.xLabel, d.yLabel, ...sx.domain(), ...sy.domain(), plot.x, plot.y, plot.width, size.width, size.height].join(" ");
/**
 * Draws a figure in parts, so that whoever shows it anew puts anew only the parts that have changed.
 *
 * @param d the drawing
 * @param size width and height in px (or pt), and of the letters
 * @param ink colours; page styles may override them by class
 * @param was the same picture a moment ago, while a hand moves what it shows
 * @returns its parts
 */
export function drawnOf(d: Drawing, size: Size, ink: Ink, was?: Drawn): Drawn {
  const all = named((above) => frameOf(d, size, ink, above), size.bare ?? false, was?.stood);
  const frame = all.canvas;
  const { width, height } = frame.size;
  const told = escaped(`${d.title}: ${d.traces.map((t) => t.label).join(", ")}`);
  const scales = scalesOf(frame);
  return {
    size,
    scales,
    head: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${round(width)} ${round(height)}" role="img" aria-label="${told}"><title>${escaped(d.title)}</title>`,
    under: was?.scales === scales ? was.under : axes(frame).join(""),
    paths: [...bands(frame), ...floorOf(frame), ...places(frame), ...traces(all)],
    points: points(frame),
    ...writtenNames(all, ink),
    across: d.example ? exampleAcross(width, height, ink.faint) : "",
    stood: all,
  };
}

/** A figure as one text. */
export const svgText = ({ head, under, paths, points, leads, names, across }: Drawn): string =>
  `${head}${under}${paths.map(markupOf).join("")}${points}${leads.map(markupOf).join("")}${names.map((n) => n.at(n.x, n.y)).join("")}${across}</svg>`;

/**
 * Draws a figure as SVG: curves labelled on the curve, bands of the 95 % interval, what was measured point by point, where this set stands, axes with
 * units. The same text for screen and print.
 *
 * @param d the drawing
 * @param size width and height in px (or pt), and of the letters
 * @param ink colours; page styles may override them by class
 * @returns SVG markup
 */
export const svgOf = (d: Drawing, size: Size, ink: Ink = dayInk): string => svgText(drawnOf(d, size, ink));
