import { scaleLinear } from "d3-scale";
import { dayInk, type Ink } from "./svg";

/** A point of the set, as found and as left, as parts of what it should be. */
export interface BeforeAfter {
  readonly label: string;
  readonly found?: number;
  readonly left?: number;
}
const escaped = (s: string): string => s.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
const round = (n: number): string => String(Math.round(n * 100) / 100);
const row = 20;
const head = 34;
const foot = 30;
/** Most that is drawn to scale: what lies beyond stands at the edge with an arrow. */
const most = 2;

/**
 * Before and after in one picture: a line a point, a hollow ring where it was found and a full disc where it was left, beside the band in which it
 * should be.
 *
 * @param points in the order in which they are drawn; at least one
 * @param size width of the whole, and of the labels, in units of the drawing
 * @param ink colours
 * @returns an SVG and its height
 */
export function beforeAfterSvg(
  points: readonly BeforeAfter[],
  { width, labels }: { readonly width: number; readonly labels: number },
  ink: Ink = dayInk,
): { readonly svg: string; readonly height: number } {
  const height = head + row * points.length + foot;
  const x = scaleLinear()
    .domain([0, most])
    .range([labels + 10, width - 24])
    .clamp(true);
  const bottom = head + row * points.length;
  const text = (at: number, y: number, said: string, more = ""): string =>
    `<text x="${round(at)}" y="${round(y)}" fill="${ink.ink}" font-size="10.5" ${more}>${escaped(said)}</text>`;
  const mark = (share: number, y: number, full: boolean): string =>
    share > most || share < 0
      ? text(x(share), y + 4, share < 0 ? "◂" : "▸", `text-anchor="middle"`)
      : `<circle cx="${round(x(share))}" cy="${round(y)}" r="5" fill="${full ? ink.ink : ink.paper}" stroke="${full ? ink.ink : ink.accent}" stroke-width="2"/>`;
  const band = `<rect x="${round(x(0.8))}" y="${head - 4}" width="${round(x(1.2) - x(0.8))}" height="${bottom - head + 8}" fill="${ink.rule}" opacity="0.55"/>`;
  const axis = [0, 0.5, 1, 1.5, 2]
    .map(
      (v) =>
        `<line x1="${round(x(v))}" x2="${round(x(v))}" y1="${head - 4}" y2="${bottom + 4}" stroke="${ink.rule}" stroke-width="${v === 1 ? 1.5 : 0.6}"/>${text(x(v), bottom + 18, `${v * 100} %`, `text-anchor="middle"`)}`,
    )
    .join("");
  const rows = points
    .map((p, i) => {
      const y = head + row * (i + 0.5);
      const both = p.found !== undefined && p.left !== undefined;
      return [
        text(labels, y + 4, p.label, `text-anchor="end"`),
        both
          ? `<line x1="${round(x(p.found ?? 0))}" x2="${round(x(p.left ?? 0))}" y1="${round(y)}" y2="${round(y)}" stroke="${ink.faint}" stroke-width="1.2"/>`
          : "",
        p.found === undefined ? "" : mark(p.found, y, false),
        p.left === undefined ? "" : mark(p.left, y, true),
      ].join("");
    })
    .join("");
  const ring = `<circle cx="${labels + 16}" cy="12" r="5" fill="${ink.paper}" stroke="${ink.accent}" stroke-width="2"/>${text(labels + 26, 16, "as found")}`;
  const key = `${points.some((p) => p.found !== undefined) ? ring : ""}<circle cx="${labels + 96}" cy="12" r="5" fill="${ink.ink}"/>${text(labels + 106, 16, "as left")}<rect x="${labels + 160}" y="6" width="16" height="12" fill="${ink.rule}"/>${text(labels + 182, 16, "within 20 % of what it should be")}`;
  return {
    height,
    svg: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" font-family="Roboto" role="img" aria-label="${escaped(`Before and after: ${points.map((p) => `${p.label} ${[p.found, p.left].map((v) => (v === undefined ? "not read" : `${Math.round(100 * v)} %`)).join(" then ")}`).join("; ")}`)}">${band}${axis}${rows}${key}</svg>`,
  };
}
