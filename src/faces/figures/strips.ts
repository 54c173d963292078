import { format } from "d3-format";
import { type ScaleLinear, scaleLinear } from "d3-scale";
import type { Strips } from "../../ask/drawings";
import { unitFor } from "../../units/print";
import { type Placed, placed } from "./strip-flags";
import { dayInk, type Ink } from "./svg";

const escaped = (s: string): string => s.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
const n = (v: number): string => String(Math.round(v * 100) / 100);
const digits = format(".6~r");
const levelPx = 15;

/** What a mark of the axis stands for on the second scale. */
const alsoAt = (s: Strips, v: number): number =>
  s.also ? s.also.atFrom + ((v - s.from) / (s.to - s.from)) * (s.also.atTo - s.also.atFrom) : v;

/** What all rows of a picture share. */
interface Sheet {
  readonly s: Strips;
  readonly left: number;
  readonly right: number;
  readonly x: ScaleLinear<number, number>;
  readonly ink: Ink;
}
/** What was drawn, and where the next thing goes. */
interface Drawn {
  readonly parts: readonly string[];
  readonly y: number;
}
const text = (at: readonly [number, number], said: string, cls: string, fill: string, extra = ""): string =>
  `<text class="${cls}" x="${n(at[0])}" y="${n(at[1])}" font-size="11" fill="${fill}"${extra}>${escaped(said)}</text>`;

/** A span or a place of a row: its mark, and its words with a clear edge round them. */
function flag(m: Placed, stroke: Strips["rows"][number]["stroke"], { base, wordsY }: { base: number; wordsY: number }, ink: Ink) {
  const fill = { ink: ink.ink, accent: ink.accent, faint: ink.faint }[stroke];
  const at = `x="${n(m.turned ? m.textAt + m.width : m.textAt)}" y="${n(wordsY)}" font-size="11"${m.turned ? ' text-anchor="end"' : ""}`;
  return {
    mark: m.isPlace
      ? `<path class="trace ${stroke}" d="M${n(m.x)} ${n(wordsY - 9)}V${n(base + 3)}" stroke="${fill}" stroke-width="1.6" fill="none"/>`
      : `<rect class="band ${stroke}" x="${n(m.x)}" y="${n(base - 4)}" width="${n(Math.max(1.5, m.x2 - m.x))}" height="7" fill="${fill}" fill-opacity="0.75"/>`,
    words: [
      `<text class="halo" ${at} fill="${ink.paper}" stroke="${ink.paper}" stroke-width="3">${escaped(m.says)}</text>`,
      `<text class="label ${stroke}" ${at} fill="${fill}">${escaped(m.says)}</text>`,
    ],
  };
}

function rowDrawn(row: Strips["rows"][number], from: number, { left, right, x, ink }: Sheet): Drawn {
  const head = text([left, from + 11], row.label, "label ink", ink.ink, ' font-weight="bold"');
  const y = from + 16;
  if (row.spans.length === 0) return { parts: [head, text([left, y + 11], "none", "label faint", ink.faint)], y: y + levelPx + 8 };
  const { marks, levels } = placed(row, x, { left, right });
  const base = y + levels * levelPx + 6;
  const rule = `<path class="rule" d="M${left} ${n(base)}H${right}" stroke="${ink.rule}" stroke-width="1" fill="none"/>`;
  const flags = marks.map((m) => flag(m, row.stroke, { base, wordsY: y + (levels - 1 - m.level) * levelPx + 11 }, ink));
  return { parts: [head, rule, ...flags.map((f) => f.mark), ...flags.flatMap((f) => f.words)], y: base + 14 };
}

/** The scale below all rows, and what it stands for above it. */
function axisDrawn(y: number, { s, left, right, x, ink }: Sheet): Drawn {
  const { unit, factor } = unitFor(Math.max(Math.abs(s.from), Math.abs(s.to)), s.dimension);
  const axisY = y + (s.also ? 22 : 4);
  const middle = ' text-anchor="middle"';
  const ticks = x.ticks(6).flatMap((v) => {
    const at = Math.min(right - 14, Math.max(left + 14, x(v)));
    const other = alsoAt(s, v);
    return [
      `<path class="trace ink" d="M${n(x(v))} ${n(axisY - 5)}V${n(axisY + 5)}" stroke="${ink.ink}" stroke-width="1.2" fill="none"/>`,
      text([at, axisY + 17], digits(v / factor), "tick", ink.ink, middle),
      ...(s.also ? [text([at, axisY - 9], digits(other / unitFor(other, s.dimension).factor), "tick", ink.accent, middle)] : []),
    ];
  });
  return {
    parts: [
      `<path class="trace ink" d="M${left} ${n(axisY)}H${right}" stroke="${ink.ink}" stroke-width="1.6" fill="none"/>`,
      ...ticks,
      ...(s.also ? [text([left, y + 2], `${s.also.label}, ${unitFor(s.also.atTo, s.dimension).unit}`, "axis", ink.accent)] : []),
      text([left, axisY + 33], `${s.axis}, ${unit}`, "axis", ink.ink),
    ],
    y: axisY + 42,
  };
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
  const sheet: Sheet = { s, left, right, x: scaleLinear().domain([s.from, s.to]).range([left, right]), ink };
  const rows = s.rows.reduce<Drawn>(
    (above, row) => {
      const own = rowDrawn(row, above.y, sheet);
      return { parts: [...above.parts, ...own.parts], y: own.y };
    },
    { parts: [], y: 8 },
  );
  const axis = axisDrawn(rows.y, sheet);
  const said = s.rows.map((r) => `${r.label}: ${r.spans.map((p) => p.says).join(", ") || "none"}`).join("; ");
  return {
    height: axis.y,
    svg: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${n(width)} ${n(axis.y)}" role="img" aria-label="${escaped(`${s.title}. ${said}`)}"><title>${escaped(s.title)}</title>${[...rows.parts, ...axis.parts].join("")}</svg>`,
  };
}

/** The same in characters: each row a line that shows where, and its words below in order. */
export function stripsText(s: Strips, columns: number): string[] {
  const wide = Math.max(30, columns - 4);
  const at = (v: number): number => Math.round(((v - s.from) / (s.to - s.from)) * (wide - 1));
  const { unit, factor } = unitFor(Math.max(Math.abs(s.from), Math.abs(s.to)), s.dimension);
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
