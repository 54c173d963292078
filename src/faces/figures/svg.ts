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

/** Where a trace's own label goes: the point where it lies farthest from the others, so that no legend is needed. */
function labelPoint(
  t: DrawnTrace,
  others: readonly DrawnTrace[],
  taken: { x: number; y: number }[],
  sx: (v: number) => number,
  sy: (v: number) => number,
  width: number,
): { x: number; y: number; anchor: string } {
  let best = { x: 0, y: 0, anchor: "start", room: -1 };
  const last = t.x.length - 1;
  for (let k = 4; k <= 96; k += 2) {
    const i = Math.round((last * k) / 100);
    const x = sx(t.x[i]);
    const y = sy(t.y[i]);
    if (!Number.isFinite(y) || x < 50 || x > width - 20) continue;
    const away = Math.min(
      80,
      ...others.map((o) => Math.abs(sy(o.y[Math.min(i, o.y.length - 1)]) - y)),
      ...taken.map((p) => Math.hypot((p.x - x) / 3, p.y - y)),
    );
    if (away > best.room) best = { x, y, anchor: x > width * 0.6 ? "end" : "start", room: away };
  }
  return best;
}

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
  const taken: { x: number; y: number }[] = [];
  const labels: string[] = [];
  for (const t of d.traces) {
    const path =
      line<number>()
        .x((i) => sx(t.x[i]))
        .y((i) => clip(t.y[i]))
        .digits(2)(Array.from(t.x.keys())) ?? "";
    parts.push(
      `<path class="trace ${t.stroke}" d="${path}" fill="none" stroke="${color[t.stroke]}" stroke-width="${t.stroke === "faint" ? 1.3 : 1.8}"${t.dash ? ' stroke-dasharray="6 4"' : ""}/>`,
    );
    const p = labelPoint(
      t,
      d.traces.filter((o) => o !== t),
      taken,
      (v) => sx(v),
      clip,
      width,
    );
    taken.push(p);
    const at = `x="${round(p.x + (p.anchor === "end" ? -6 : 6))}" y="${round(p.y - 6)}" text-anchor="${p.anchor}" font-size="11" font-weight="bold"`;
    labels.push(
      `<text class="halo" ${at} fill="${ink.paper}" stroke="${ink.paper}" stroke-width="3.5">${escaped(t.label)}</text><text class="label ${t.stroke}" ${at} fill="${color[t.stroke]}">${escaped(t.label)}</text>`,
    );
  }
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" aria-label="${escaped(`${d.title}: ${d.traces.map((t) => t.label).join(", ")}`)}"><title>${escaped(d.title)}</title>${parts.join("")}${labels.join("")}</svg>`;
}
