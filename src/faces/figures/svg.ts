import { format } from "d3-format";
import { scaleLinear, scaleLog } from "d3-scale";
import { area, line } from "d3-shape";
import { type Drawing, type DrawnTrace, extentOf } from "./drawing";

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

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
type Curve = readonly (readonly [number, number])[];
const overlaps = (a: Box, b: Box): boolean => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Index of the first point of a curve, drawn from left to right, that lies right of x. */
function firstRightOf(curve: Curve, x: number): number {
  let low = 0;
  let high = curve.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (curve[mid][0] > x) high = mid;
    else low = mid + 1;
  }
  return low;
}
/** Points of a curve that a label would cover. */
function pointsWithin(curve: Curve, box: Box): number {
  let n = 0;
  for (let i = firstRightOf(curve, box.x - 2); i < curve.length && curve[i][0] < box.x + box.width + 2; i++)
    if (curve[i][1] > box.y - 1 && curve[i][1] < box.y + 14) n++;
  return n;
}

/** Where a trace's own label goes, so that no legend is needed: beside its curve, where it covers neither another curve nor another label. */
function labelBox(t: DrawnTrace, all: readonly Curve[], own: number, taken: readonly Box[], plot: Box): Box {
  const width = t.label.length * 6.4 + 4;
  let best: Box = { x: plot.x + 4, y: plot.y + 4, width, height: 13 };
  let least = Number.POSITIVE_INFINITY;
  const points = all[own];
  for (let k = 3; k <= 97; k += 2) {
    const [px, py] = points[Math.round(((points.length - 1) * k) / 100)];
    for (const [dx, dy] of [
      [6, -16],
      [-width - 6, -16],
      [6, 4],
      [-width - 6, 4],
      [-width / 2, -18],
      [-width / 2, 6],
    ]) {
      const box: Box = { x: px + dx, y: py + dy, width, height: 13 };
      if (box.x < plot.x || box.y < plot.y || box.x + width > plot.x + plot.width || box.y + 13 > plot.y + plot.height) continue;
      let cost = Math.abs(k - 50) / 200;
      for (const other of taken) if (overlaps(box, other)) cost += 50;
      for (let i = 0; i < all.length && cost < least; i++) cost += (i === own ? 1 : 2) * pointsWithin(all[i], box);
      if (cost < least) {
        least = cost;
        best = box;
      }
    }
  }
  return best;
}

/** The word across a picture that shows nothing of this set. */
export const exampleAcross = (width: number, height: number, colour: string): string =>
  `<text class="example" transform="translate(${width / 2} ${height / 2}) rotate(-14)" text-anchor="middle" font-size="${round(Math.min(width / 7, height / 2.2))}" font-weight="bold" letter-spacing="4" fill="${colour}" fill-opacity="0.35">EXAMPLE</text>`;

/**
 * Draws a figure as SVG: curves labelled on the curve, bands of the 95 % interval, axes with units. The same text for screen and print.
 *
 * @param d the drawing
 * @param size width and height in px (or pt)
 * @param ink colours; page styles may override them by class
 * @returns SVG markup
 */
export function svgOf(d: Drawing, size: { readonly width: number; readonly height: number }, ink: Ink = dayInk): string {
  const { width, height } = size;
  const margin = { left: 54, right: 16, top: 14, bottom: 42 };
  const { x, y } = extentOf(d);
  const sx = (d.xLog ? scaleLog() : scaleLinear()).domain(x).range([margin.left, width - margin.right]);
  const sy = scaleLinear()
    .domain(y)
    .range([height - margin.bottom, margin.top])
    .nice();
  const clip = (v: number): number => Math.min(height - margin.bottom, Math.max(margin.top, sy(v)));
  const color = { ink: ink.ink, accent: ink.accent, faint: ink.faint } as const;
  const parts: string[] = [];
  const xt = d.xLog ? sx.ticks(6).filter((v) => Number.isInteger(Math.round(Math.log10(v) * 1e6) / 1e6)) : sx.ticks(6);
  const xf = d.xLog ? format("~s") : sx.tickFormat(6);
  const yt = sy.ticks(6);
  for (const v of yt)
    parts.push(
      `<path class="rule" d="M${margin.left} ${round(sy(v))}H${width - margin.right}" stroke="${ink.rule}" stroke-width="0.7" fill="none"/><text class="tick" x="${margin.left - 6}" y="${round(sy(v) + 3.5)}" text-anchor="end" font-size="10" fill="${ink.ink}">${escaped(sy.tickFormat(6)(v))}</text>`,
    );
  for (const v of xt)
    parts.push(
      `<path class="rule" d="M${round(sx(v))} ${margin.top}V${height - margin.bottom}" stroke="${ink.rule}" stroke-width="0.7" fill="none"/><text class="tick" x="${round(sx(v))}" y="${height - margin.bottom + 14}" text-anchor="middle" font-size="10" fill="${ink.ink}">${escaped(xf(v))}</text>`,
    );
  parts.push(
    `<text class="axis" x="${(margin.left + width - margin.right) / 2}" y="${height - 8}" text-anchor="middle" font-size="11" fill="${ink.ink}">${escaped(d.xLabel)}</text>`,
  );
  parts.push(
    `<text class="axis" transform="translate(13 ${(margin.top + height - margin.bottom) / 2}) rotate(-90)" text-anchor="middle" font-size="11" fill="${ink.ink}">${escaped(d.yLabel)}</text>`,
  );
  for (const t of d.traces) {
    if (!t.low || !t.high) continue;
    const band = area<number>()
      .x((i) => sx(t.x[i]))
      .y0((i) => clip(t.low![i]))
      .y1((i) => clip(t.high![i]));
    parts.push(
      `<path class="band ${t.stroke}" d="${band.digits(2)(Array.from(t.x.keys())) ?? ""}" fill="${color[t.stroke]}" fill-opacity="0.14"/>`,
    );
  }
  const floor = sy.domain()[0];
  const curves = d.traces.map((t) =>
    Array.from(t.x.keys()).flatMap((i): [number, number][] => (t.y[i] >= floor ? [[sx(t.x[i]), sy(t.y[i])]] : [])),
  );
  const plot: Box = {
    x: margin.left,
    y: margin.top,
    width: width - margin.left - margin.right,
    height: height - margin.top - margin.bottom,
  };
  const taken: Box[] = [];
  if (d.floor && d.floor.y > floor) {
    const at = round(sy(d.floor.y));
    parts.push(
      `<path class="floor" d="M${margin.left} ${at}H${width - margin.right}" stroke="${ink.faint}" stroke-width="1" stroke-dasharray="2 4" fill="none"/><text class="tick" x="${margin.left + plot.width / 2}" y="${Number(at) + 12}" text-anchor="middle" font-size="10" fill="${ink.faint}">${escaped(d.floor.label)}</text>`,
    );
    taken.push({ x: margin.left + plot.width / 2 - d.floor.label.length * 3, y: Number(at), width: d.floor.label.length * 6, height: 15 });
  }
  const labels: string[] = [];
  for (const [k, t] of d.traces.entries()) {
    const path = line<[number, number]>().digits(2)(curves[k]) ?? "";
    parts.push(
      `<path class="trace ${t.stroke}" d="${path}" fill="none" stroke="${color[t.stroke]}" stroke-width="${t.stroke === "faint" ? 1.3 : 1.8}"${t.dash ? ' stroke-dasharray="6 4"' : ""}/>`,
    );
    if (curves[k].length === 0) continue;
    const box = labelBox(t, curves, k, taken, plot);
    taken.push(box);
    const at = `x="${round(box.x + 2)}" y="${round(box.y + 10)}" font-size="11" font-weight="bold"`;
    labels.push(
      `<text class="halo" ${at} fill="${ink.paper}" stroke="${ink.paper}" stroke-width="3">${escaped(t.label)}</text><text class="label ${t.stroke}" ${at} fill="${color[t.stroke]}">${escaped(t.label)}</text>`,
    );
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escaped(`${d.title}: ${d.traces.map((t) => t.label).join(", ")}`)}"><title>${escaped(d.title)}</title>${parts.join("")}${labels.join("")}${d.example ? exampleAcross(width, height, ink.faint) : ""}</svg>`;
}
