import { format } from "d3-format";
import { scaleLinear } from "d3-scale";
import type { Strips } from "../../ask/drawings";
import { unitFor } from "../../units/print";
import { dayInk, type Ink } from "./svg";

const escaped = (s: string): string => s.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
const n = (v: number): string => String(Math.round(v * 100) / 100);
const charPx = 5.9;
const levelPx = 15;

/** What a mark of the axis stands for on the second scale. */
const alsoAt = (s: Strips, v: number): number =>
  s.also ? s.also.atFrom + ((v - s.from) / (s.to - s.from)) * (s.also.atTo - s.also.atFrom) : v;

interface Placed {
  readonly x: number;
  readonly x2: number;
  readonly textAt: number;
  readonly width: number;
  level: number;
  readonly says: string;
  readonly isPlace: boolean;
  /** whether the words end at the pole */
  readonly turned: boolean;
}
/**
 * Words above their spans, on as many levels as it takes. A place carries its words like a flag beside its pole; of two that would meet
 * the left one flies higher, so that no pole goes through another's words.
 */
function placed(
  row: Strips["rows"][number],
  x: (v: number) => number,
  left: number,
  right: number,
): { readonly marks: readonly Placed[]; readonly levels: number } {
  const marks = [...row.spans]
    .sort((a, b) => a.from - b.from)
    .map((s) => {
      const [a, b] = [x(s.from), x(s.to)];
      const isPlace = s.from === s.to;
      const width = s.says.length * charPx + 6;
      // at the right edge a flag flies to the left of its pole
      const turned = isPlace && a + 3 + width > right;
      const textAt = Math.max(left, isPlace ? (turned ? a - 3 - width : a + 3) : Math.min((a + b) / 2 - width / 2, right - width));
      return { x: a, x2: b, textAt, width, level: 0, says: s.says, isPlace, turned };
    });
  const covers = (m: Placed, at: number): boolean => at >= m.textAt - 2 && at <= m.textAt + m.width;
  const meet = (a: Placed, b: Placed): boolean => a.textAt < b.textAt + b.width && b.textAt < a.textAt + a.width;
  for (let round = 0, moved = true; moved && round < marks.length; round++) {
    moved = false;
    for (const [i, a] of marks.entries())
      for (const [j, b] of marks.entries()) {
        if (i === j || a.level > b.level) continue;
        const over = b.isPlace && covers(a, b.x);
        if (!over && !(a.level === b.level && meet(a, b) && !covers(b, a.x) && i < j)) continue;
        a.level = b.level + 1;
        moved = true;
      }
  }
  return { marks, levels: Math.max(1, ...marks.map((m) => m.level + 1)) };
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
    const words: string[] = [];
    for (const m of marks) {
      const ty = y + (levels - 1 - m.level) * levelPx + 11;
      parts.push(
        m.isPlace
          ? `<path class="trace ${row.stroke}" d="M${n(m.x)} ${n(ty - 9)}V${n(base + 3)}" stroke="${fill}" stroke-width="1.6" fill="none"/>`
          : `<rect class="band ${row.stroke}" x="${n(m.x)}" y="${n(base - 4)}" width="${n(Math.max(1.5, m.x2 - m.x))}" height="7" fill="${fill}" fill-opacity="0.75"/>`,
      );
      const at = `x="${n(m.turned ? m.textAt + m.width : m.textAt)}" y="${n(ty)}" font-size="11"${m.turned ? ' text-anchor="end"' : ""}`;
      words.push(
        `<text class="halo" ${at} fill="${ink.paper}" stroke="${ink.paper}" stroke-width="3">${escaped(m.says)}</text>`,
        `<text class="label ${row.stroke}" ${at} fill="${fill}">${escaped(m.says)}</text>`,
      );
    }
    parts.push(...words);
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
      const other = alsoAt(s, v);
      parts.push(text(at, axisY - 9, digits(other / unitFor(other, s.dimension).factor), "tick", ink.accent, ' text-anchor="middle"'));
    }
  }
  if (s.also) parts.push(text(left, y + 2, `${s.also.label}, ${unitFor(s.also.atTo, s.dimension).unit}`, "axis", ink.accent));
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
    const [a, b] = [s.also.atFrom, s.also.atTo].map((v) => digits(v / unitFor(v, s.dimension).factor));
    out.push(`  ${a}${b.padStart(wide - a.length)}  ${s.also.label}, ${unitFor(s.also.atTo, s.dimension).unit}`);
  }
  return out;
}
