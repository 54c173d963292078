import { format } from "d3-format";
import { scaleLinear, scaleLog } from "d3-scale";
import { area, line } from "d3-shape";
import { type Drawing, extentOf } from "./drawing";
import { type Box, boxOfText, type Curve, labelBox, linesOfLabel } from "./labels";

export interface Ink {
  readonly paper: string;
  readonly ink: string;
  readonly faint: string;
  readonly accent: string;
  readonly rule: string;
}
export const dayInk: Ink = { paper: "#fffdf7", ink: "#1d2a33", faint: "#7d8790", accent: "#b3401f", rule: "#d9d4c7" };
const escaped = (s: string): string => s.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
const round = (n: number): string => String(Math.round(n * 100) / 100);

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
function frameOf(d: Drawing, size: Size, ink: Ink): Frame {
  const type = size.type ?? 10;
  const margin = {
    left: type * (size.bare ? 3.4 : 5.1),
    right: type * 1.6,
    top: type * (size.bare ? 0.8 : 1.2),
    bottom: type * (size.bare ? 1.8 : 3.9),
  };
  const { x, y } = extentOf(d);
  const plot = {
    x: margin.left,
    y: margin.top,
    width: size.width - margin.left - margin.right,
    height: size.height - margin.top - margin.bottom,
    type,
  };
  const sx = (d.xLog ? scaleLog() : scaleLinear()).domain(x).range([plot.x, plot.x + plot.width]);
  const sy = scaleLinear()
    .domain(y)
    .range([plot.y + plot.height, plot.y])
    .nice(Math.max(3, Math.round(plot.height / (type * 4))));
  return { d, plot, size, sx, sy, ink };
}

/** Rules with their figures, and what the axes are. */
function axes({ d, plot, size, sx, sy, ink }: Frame): string[] {
  const { type } = plot;
  const across = Math.max(2, Math.min(6, Math.floor(plot.width / (type * 6))));
  const up = Math.max(3, Math.min(6, Math.floor(plot.height / (type * 2.4))));
  const ticks = sx.ticks(across);
  const xt = d.xLog ? ticks.filter((v) => Number.isInteger(Math.round(Math.log10(v) * 1e6) / 1e6)) : ticks;
  const xf = d.xLog ? format("~s") : sx.tickFormat(across);
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
          `<path class="rule" d="M${round(plot.x)} ${round(sy(v))}H${round(right)}" ${rule}/><text class="tick" x="${round(plot.x - 6)}" y="${round(sy(v) + type * 0.35)}" text-anchor="end" ${text}>${escaped(yf(v))}</text>`,
      ),
    ...xt.map(
      (v) =>
        `<path class="rule" d="M${round(sx(v))} ${round(plot.y)}V${round(foot)}" ${rule}/><text class="tick" x="${round(sx(v))}" y="${round(foot + type * 1.35)}" text-anchor="middle" ${text}>${escaped(xf(v))}</text>`,
    ),
    ...(size.bare ? [] : words),
  ];
}

/** The 95 % interval of each trace that has one, as a band. */
function bands({ d, plot, sx, sy, ink }: Frame): string[] {
  const clip = (v: number): number => Math.min(plot.y + plot.height, Math.max(plot.y, sy(v)));
  return d.traces.flatMap((t) => {
    const { low, high } = t;
    if (!low || !high) return [];
    const band = area<number>()
      .x((i) => sx(t.x[i]))
      .y0((i) => clip(low[i]))
      .y1((i) => clip(high[i]));
    return [
      `<path class="band ${t.stroke}" d="${band.digits(2)(Array.from(t.x.keys())) ?? ""}" fill="${ink[t.stroke]}" fill-opacity="0.14"/>`,
    ];
  });
}

/** The level below which the figure says less. */
function floorOf({ d, plot, size, sy, ink }: Frame, taken: Box[]): string {
  if (!d.floor || d.floor.y <= sy.domain()[0]) return "";
  const { type } = plot;
  const at = sy(d.floor.y);
  const { width } = boxOfText(d.floor.label, type);
  const rule = `<path class="floor" d="M${round(plot.x)} ${round(at)}H${round(plot.x + plot.width)}" stroke="${ink.faint}" stroke-width="1" stroke-dasharray="2 4" fill="none"/>`;
  if (size.bare) return rule;
  taken.push({ x: plot.x + plot.width / 2 - width / 2, y: at, width, height: type * 1.5 });
  return `${rule}<text class="tick" x="${round(plot.x + plot.width / 2)}" y="${round(at + type * 1.2)}" text-anchor="middle" font-size="${type}" fill="${ink.faint}">${escaped(d.floor.label)}</text>`;
}

/** What was measured, point by point: it lies over its curve or shows how far it does not. */
function points({ d, plot, sx, sy, ink }: Frame): string {
  const dots = (d.points ?? []).flatMap((p) => {
    // a few readings are seen from the arm's length; a sweep's hundreds lie as a grain over the curve
    const r = round(plot.type * (p.x.length > 40 ? 0.16 : 0.28));
    return p.x.flatMap((x, i) => {
      const [px, py] = [sx(x), sy(p.y[i])];
      const inside = px >= plot.x && px <= plot.x + plot.width && py >= plot.y - 1 && py <= plot.y + plot.height + 1;
      return inside ? [`<circle class="point" cx="${round(px)}" cy="${round(py)}" r="${r}"/>`] : [];
    });
  });
  const stroke = plot.type > 12 ? 1.6 : 1;
  return dots.length === 0 ? "" : `<g class="points" fill="${ink.paper}" stroke="${ink.ink}" stroke-width="${stroke}">${dots.join("")}</g>`;
}

/** Where this set stands: an upright line at a value, with its name at the top. */
function places({ d, plot, sx, ink }: Frame, taken: Box[]): string[] {
  return (d.places ?? []).flatMap((p) => {
    const x = sx(p.x);
    if (!(x >= plot.x && x <= plot.x + plot.width)) return [];
    const { width, height } = boxOfText(p.label, plot.type);
    const left = Math.min(Math.max(plot.x, x + 5), plot.x + plot.width - width);
    const box = { x: left, y: plot.y, width, height };
    while (taken.some((t) => t.x < box.x + width && box.x < t.x + t.width && t.y < box.y + height && box.y < t.y + t.height))
      box.y += height;
    taken.push(box);
    return [
      `<path class="place" d="M${round(x)} ${round(plot.y)}V${round(plot.y + plot.height)}" stroke="${ink.accent}" stroke-width="1.4" stroke-dasharray="2 3" fill="none"/><text class="label accent" x="${round(box.x)}" y="${round(box.y + plot.type)}" font-size="${plot.type}" font-weight="bold" fill="${ink.accent}">${escaped(p.label)}</text>`,
    ];
  });
}

/** Curves, and their labels beside them. */
function traces({ d, plot, sx, sy, ink }: Frame, taken: Box[]): readonly [drawn: string[], labels: string[]] {
  const { type } = plot;
  const floor = sy.domain()[0];
  const curves: readonly Curve[] = d.traces.map((t) =>
    Array.from(t.x.keys()).flatMap((i): [number, number][] => (t.y[i] >= floor ? [[sx(t.x[i]), sy(t.y[i])]] : [])),
  );
  const drawn: string[] = [];
  const labels: string[] = [];
  for (const [k, t] of d.traces.entries()) {
    const path = line<readonly [number, number]>().digits(2)(curves[k]) ?? "";
    const width = (t.stroke === "faint" ? 1.3 : 1.8) * Math.max(1, type / 12);
    drawn.push(
      `<path class="trace ${t.stroke}" d="${path}" fill="none" stroke="${ink[t.stroke]}" stroke-width="${round(width)}"${t.dash ? ' stroke-dasharray="6 4"' : ""}/>`,
    );
    if (curves[k].length === 0) continue;
    const box = labelBox(t, curves, k, taken, plot);
    taken.push(box);
    for (const [i, said] of linesOfLabel(t.label, plot).entries()) {
      const at = `x="${round(box.x + 2)}" y="${round(box.y + type * (1 + 1.2 * i))}" font-size="${type}" font-weight="bold"`;
      labels.push(
        `<text class="halo" ${at} fill="${ink.paper}" stroke="${ink.paper}" stroke-width="3">${escaped(said)}</text><text class="label ${t.stroke}" ${at} fill="${ink[t.stroke]}">${escaped(said)}</text>`,
      );
    }
  }
  return [drawn, labels];
}

/**
 * Draws a figure as SVG: curves labelled on the curve, bands of the 95 % interval, what was measured point by point, where this set stands, axes with
 * units. The same text for screen and print.
 *
 * @param d the drawing
 * @param size width and height in px (or pt), and of the letters
 * @param ink colours; page styles may override them by class
 * @returns SVG markup
 */
export function svgOf(d: Drawing, size: Size, ink: Ink = dayInk): string {
  const frame = frameOf(d, size, ink);
  const taken: Box[] = [];
  const under = [...axes(frame), ...bands(frame), floorOf(frame, taken), ...places(frame, taken)];
  const [drawn, labels] = traces(frame, taken);
  const told = escaped(`${d.title}: ${d.traces.map((t) => t.label).join(", ")}`);
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${size.width} ${size.height}" role="img" aria-label="${told}"><title>${escaped(d.title)}</title>${under.join("")}${drawn.join("")}${points(frame)}${labels.join("")}${d.example ? exampleAcross(size.width, size.height, ink.faint) : ""}</svg>`;
}
