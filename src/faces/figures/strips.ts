import { format } from "d3-format";
import { scaleLinear } from "d3-scale";
import type { Strips } from "../../sheets/contract";
import { unitFor } from "../../units/print";
import { dayInk, type Ink } from "./svg";

const escaped = (s: string): string => s.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
const n = (v: number): string => String(Math.round(v * 100) / 100);
const charPx = 5.9;
const levelPx = 15;

interface Placed {
  readonly x: number;
  readonly x2: number;
  readonly textAt: number;
  readonly level: number;
  readonly says: string;
  readonly isPlace: boolean;
}
/** Words above their spans, on as many levels as it takes that none lies on another. */
function placed(
  row: Strips["rows"][number],
  x: (v: number) => number,
  left: number,
  right: number,
): { readonly marks: Placed[]; readonly levels: number } {
  const ends: number[] = [];
  const marks = [...row.spans]
    .sort((a, b) => a.from - b.from)
    .map((s): Placed => {
      const [a, b] = [x(s.from), x(s.to)];
      const width = s.says.length * charPx;
      const textAt = Math.min(Math.max(left, (a + b) / 2 - width / 2), right - width);
      let level = ends.findIndex((e) => e + 8 < textAt);
      if (level < 0) level = ends.length;
      ends[level] = textAt + width;
      return { x: a, x2: b, textAt, level, says: s.says, isPlace: s.from === s.to };
    });
  return { marks, levels: Math.max(1, ends.length) };
}

/**
 * Draws strips over one scale as SVG: a row for each kind of thing, its words on it, the scale once below, and what it stands for once above.
 *
 * @param s the strips
 * @param width px or pt
 * @param ink colours; page styles may override them by class
 * @returns SVG markup and its height
 */
export function stripsSvg(s: Strips, width: number, ink: Ink = dayInk): { readonly svg: string; readonly height: number } {
  const [left, right] = [16, width - 16];
  const sx = scaleLinear().domain([s.from, s.to]).range([left, right]);
  const { unit, factor } = unitFor(Math.max(Math.abs(s.from), Math.abs(s.to)), s.dimension);
  const color = { ink: ink.ink, accent: ink.accent, faint: ink.faint } as const;
  const text = (x: number, y: number, said: string, cls: string, fill: string, extra = ""): string =>
    `<text class="${cls}" x="${n(x)}" y="${n(y)}" font-size="11" fill="${fill}"${extra}>${escaped(said)}</text>`;
  const parts: string[] = [];
  let y = 8;
  for (const row of s.rows) {
    parts.push(text(left, y + 11, row.label, "label ink", ink.ink, ' font-weight="bold"'));
    y += 16;
    if (row.spans.length === 0) {
      parts.push(text(left, y + 11, "none", "label faint", ink.faint));
      y += levelPx + 8;
      continue;
    }
    const { marks, levels } = placed(row, sx, left, right);
    const base = y + levels * levelPx + 6;
    const fill = color[row.stroke];
    parts.push(`<path class="rule" d="M${left} ${n(base)}H${right}" stroke="${ink.rule}" stroke-width="1" fill="none"/>`);
    for (const m of marks) {
      const ty = y + (levels - 1 - m.level) * levelPx + 11;
      const mid = (m.x + m.x2) / 2;
      parts.push(
        m.isPlace
          ? `<path class="trace ${row.stroke}" d="M${n(m.x)} ${n(ty + 3)}V${n(base + 3)}" stroke="${fill}" stroke-width="1.6" fill="none"/>`
          : `<rect class="band ${row.stroke}" x="${n(m.x)}" y="${n(base - 4)}" width="${n(Math.max(1.5, m.x2 - m.x))}" height="7" fill="${fill}" fill-opacity="0.75"/>`,
      );
      if (!m.isPlace && m.level > 0)
        parts.push(`<path class="rule" d="M${n(mid)} ${n(ty + 3)}V${n(base - 4)}" stroke="${ink.rule}" stroke-width="0.7" fill="none"/>`);
      parts.push(
        `<text class="halo" x="${n(m.textAt)}" y="${n(ty)}" font-size="11" fill="${ink.paper}" stroke="${ink.paper}" stroke-width="3">${escaped(m.says)}</text>`,
        text(m.textAt, ty, m.says, `label ${row.stroke}`, fill),
      );
    }
    y = base + 14;
  }
  const axisY = y + (s.also ? 22 : 4);
  const ticks = sx.ticks(6);
  const digits = format(".6~r");
  parts.push(`<path class="trace ink" d="M${left} ${n(axisY)}H${right}" stroke="${ink.ink}" stroke-width="1.6" fill="none"/>`);
  for (const v of ticks) {
    const at = Math.min(right - 14, Math.max(left + 14, sx(v)));
    parts.push(
      `<path class="trace ink" d="M${n(sx(v))} ${n(axisY - 5)}V${n(axisY + 5)}" stroke="${ink.ink}" stroke-width="1.2" fill="none"/>`,
      text(at, axisY + 17, digits(v / factor), "tick", ink.ink, ' text-anchor="middle"'),
    );
    if (s.also) {
      const other = s.also.at(v);
      parts.push(text(at, axisY - 9, digits(other / unitFor(other, s.dimension).factor), "tick", ink.accent, ' text-anchor="middle"'));
    }
  }
  if (s.also) parts.push(text(left, y + 2, `${s.also.label}, ${unitFor(s.also.at(s.to), s.dimension).unit}`, "axis", ink.accent));
  parts.push(text(left, axisY + 33, `${s.axis}, ${unit}`, "axis", ink.ink));
  const height = axisY + 42;
  const said = s.rows.map((r) => `${r.label}: ${r.spans.map((p) => p.says).join(", ") || "none"}`).join("; ");
  return {
    height,
    svg: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${n(width)} ${n(height)}" role="img" aria-label="${escaped(`${s.title}. ${said}`)}"><title>${escaped(s.title)}</title>${parts.join("")}</svg>`,
  };
}

/** The same in characters: each row a line that shows where, and its words below in order. */
export function stripsText(s: Strips, columns: number): string[] {
  const wide = Math.max(30, columns - 4);
  const at = (v: number): number => Math.round(((v - s.from) / (s.to - s.from)) * (wide - 1));
  const { unit, factor } = unitFor(Math.max(Math.abs(s.from), Math.abs(s.to)), s.dimension);
  const digits = format(".6~r");
  const out = [s.title, ""];
  for (const r of s.rows) {
    const line = new Array<string>(wide).fill(".");
    for (const p of r.spans)
      for (let c = Math.max(0, at(p.from)); c <= Math.min(wide - 1, at(p.to)); c++) line[c] = p.from === p.to ? "|" : "=";
    out.push(`  ${r.label}`, `  ${line.join("")}`);
    for (const p of r.spans)
      out.push(`    ${digits(p.from / factor)}${p.to === p.from ? "" : ` to ${digits(p.to / factor)}`} ${unit}: ${p.says}`);
    if (r.spans.length === 0) out.push("    none");
  }
  out.push(`  ${digits(s.from / factor)}${digits(s.to / factor).padStart(wide - digits(s.from / factor).length)}  ${s.axis}, ${unit}`);
  if (s.also) {
    const [a, b] = [s.also.at(s.from), s.also.at(s.to)].map((v) => digits(v / unitFor(v, s.dimension).factor));
    out.push(`  ${a}${b.padStart(wide - a.length)}  ${s.also.label}, ${unitFor(s.also.at(s.to), s.dimension).unit}`);
  }
  return out;
}
