import { format } from "d3-format";
import { scaleLinear } from "d3-scale";
import { type Drawing, extentOf } from "./drawing";

const marks = { ink: "*", accent: "o", faint: "." } as const;

/**
 * Draws a figure in characters, for a terminal.
 *
 * @param d the drawing
 * @param size columns and lines of the plot itself
 * @returns lines
 */
export function plotText(d: Drawing, size: { readonly columns: number; readonly lines: number } = { columns: 64, lines: 14 }): string[] {
  const { columns, lines } = size;
  const { x, y: exactY } = extentOf(d);
  const y = scaleLinear().domain(exactY).nice(14).domain();
  const place = (v: number): number => (d.xLog ? Math.log(v / x[0]) / Math.log(x[1] / x[0]) : (v - x[0]) / (x[1] - x[0]));
  const grid = Array.from({ length: lines }, () => new Array<string>(columns).fill(" "));
  const signs = d.traces.map((t, i) =>
    t.dash ? "+" : d.traces.some((o, k) => k < i && o.stroke === t.stroke && !o.dash) ? "x" : marks[t.stroke],
  );
  d.traces.forEach((t, k) => {
    for (let i = 0; i < t.x.length; i++) {
      const c = Math.round(place(t.x[i]) * (columns - 1));
      const r = Math.round(((y[1] - t.y[i]) / (y[1] - y[0])) * (lines - 1));
      if (c >= 0 && c < columns && r >= 0 && r < lines) grid[r][c] = signs[k];
    }
  });
  const read = (d.points ?? []).filter((p) => p.label !== undefined);
  for (const p of read)
    for (let i = 0; i < p.x.length; i++) {
      const c = Math.round(place(p.x[i]) * (columns - 1));
      const r = Math.round(((y[1] - p.y[i]) / (y[1] - y[0])) * (lines - 1));
      if (c >= 0 && c < columns && r >= 0 && r < lines) grid[r][c] = "@";
    }
  const label = (r: number): string =>
    (r % 4 === 0 || r === lines - 1 ? short(y[1] - ((y[1] - y[0]) * r) / (lines - 1), y[1] - y[0]) : "").padStart(8);
  const across = "EXAMPLE, not this set";
  if (d.example) for (const [i, c] of [...across].entries()) grid[Math.floor(lines / 2)][Math.floor((columns - across.length) / 2) + i] = c;
  const out = grid.map((g, r) => `${label(r)} |${g.join("").trimEnd()}`);
  out.push(`${" ".repeat(8)} +${"-".repeat(columns)}`);
  const left = d.xLog ? engineering(x[0]) : String(Number(x[0].toPrecision(6)));
  const right = d.xLog ? engineering(x[1]) : String(Number(x[1].toPrecision(6)));
  const middle = d.xLabel.slice(0, columns - left.length - right.length - 4);
  const gap = columns - left.length - right.length - middle.length;
  out.push(`${" ".repeat(10)}${left}${" ".repeat(Math.floor(gap / 2))}${middle}${" ".repeat(Math.ceil(gap / 2))}${right}`);
  if (d.floor && d.floor.y > y[0]) out.push(`${" ".repeat(10)}under ${d.floor.y}: ${d.floor.label.replace(/^below this: /, "")}`);
  out.push(
    `${" ".repeat(10)}${d.yLabel};  ${[...d.traces.map((t, k) => `${signs[k]} ${t.label}`), ...read.map((p) => `@ ${p.label}`)].join("   ")}`,
  );
  return out;
}
/** A tick that is nothing but rounding is zero. */
const short = (v: number, span: number): string => (Math.abs(v) < 1e-9 * span ? "0" : String(Number(v.toPrecision(3))));
const engineering = format("~s");
