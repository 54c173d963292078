import type { Charge, ChargeColumn } from "../../ask/drawn/charge";
import { printValue } from "../../units/print";
import { upperFirst } from "../../units/sentence";
import { dangerSign, framed, linePx, n, paragraph, textLine, textPx } from "./picture-text";
import { dayInk, exampleAcross, type Ink } from "./svg";
import { textWidth } from "./text-width";

const [widePx, narrowPx, tallPx, topPx, gapPx, tickPx] = [44, 28, 210, 34, 16, 12] as const;
/** Under this a picture's columns are narrow ones. */
const narrowBelowPx = 420;
/** Rounded as a guide is told: nobody times a discharge. */
const volts = (v: number): string => printValue(v, "voltage", v >= 10 ? 3 : 0.3);
const seconds = (s: number): string => printValue(s, "time", s / 5);
/** Levels with their words, the first and the last before those between; what would meet another is left out. */
function levelsOf(c: ChargeColumn, y: (v: number) => number, apartPx: number = linePx): { readonly at: number; readonly says: string }[] {
  const first = { at: y(c.fromV), says: `0 s: ${volts(c.fromV)}` };
  const falls = c.falls.map((f) => ({ at: y(f.volts), says: `${seconds(f.afterS)}: ${volts(f.volts)}` }));
  const kept = [first];
  for (const l of [...falls.slice(-1), ...falls.slice(0, -1)]) if (kept.every((k) => Math.abs(k.at - l.at) >= apartPx)) kept.push(l);
  return kept;
}

function columnSvg(
  c: ChargeColumn,
  of: Charge,
  at: { readonly x: number; readonly width: number; readonly barPx: number },
  ink: Ink,
): { readonly svg: string; readonly height: number } {
  const top = Math.max(1, ...of.columns.map((o) => o.fromV));
  const y = (v: number): number => topPx + tallPx * (1 - v / top);
  const foot = topPx + tallPx;
  const { x, barPx } = at;
  const steps = [{ volts: c.fromV }, ...c.falls];
  // what falls first is palest: the column as it sinks
  const bands = steps.map(({ volts: v }, i) => {
    const below = steps[i + 1]?.volts ?? 0;
    const opacity = c.falls.length === 0 ? 0.75 : 0.2 + (0.55 * i) / (steps.length - 1);
    return `<rect x="${n(x)}" y="${n(y(v))}" width="${barPx}" height="${n(Math.max(0, y(below) - y(v)))}" fill="${ink.accent}" fill-opacity="${n(opacity * 10) === "0" ? 0.1 : Math.round(opacity * 100) / 100}"/>`;
  });
  const frame = `<path d="M${n(x)} ${n(topPx - 8)}V${n(foot)}H${n(x + barPx)}V${n(topPx - 8)}" fill="none" stroke="${ink.ink}" stroke-width="2"/>`;
  const limit = `<path d="M${n(x - 6)} ${n(y(of.limitV))}H${n(x + barPx + 6)}" stroke="${ink.ink}" stroke-width="2" stroke-dasharray="5 4"/>`;
  const arrow =
    c.falls.length > 0
      ? `<path d="M${n(x + barPx / 2)} ${n(y(c.fromV) + 10)}V${n(y(of.limitV) - 14)}m-6 -8l6 8l6 -8" fill="none" stroke="${ink.ink}" stroke-width="2" stroke-linecap="round" stroke-linejoin="round"/>`
      : "";
  const room = at.width - barPx - tickPx;
  const levels = levelsOf(c, y).map((l, i) =>
    textWidth(l.says, textPx) > room
      ? ""
      : `<path d="M${n(x + barPx)} ${n(l.at)}h8" stroke="${ink.ink}" stroke-width="1.4"/>${textLine(x + barPx + tickPx, l.at - 10, { text: l.says, bold: i === 0, tone: "ink" }, ink)}`,
  );
  const label = paragraph({ x, y: foot + 8, width: at.width }, { text: c.label, bold: true, tone: "ink" }, ink);
  const says = paragraph({ x, y: label.y, width: at.width }, { text: c.says, bold: false, tone: "ink" }, ink);
  const sign = c.fromV > of.limitV ? dangerSign(x + barPx / 2, topPx - 22, ink) : "";
  return { svg: bands.join("") + frame + limit + arrow + levels.join("") + sign + label.svg + says.svg, height: says.y };
}

/**
 * What a filter holds as columns that fall.
 *
 * @param c the columns
 * @param width px that they are drawn for
 * @param ink colours
 * @returns SVG markup and its height
 */
export function chargeSvg(c: Charge, width: number, ink: Ink = dayInk): { readonly svg: string; readonly height: number } {
  const barPx = width < narrowBelowPx ? narrowPx : widePx;
  const all = width - 24 - gapPx * (c.columns.length - 1);
  const each = Math.min(280, all / c.columns.length);
  // words beside a column want their room: what one has over another gets
  const needs = c.columns.map((o) => barPx + tickPx + Math.max(...levelsOf(o, () => 0, 0).map((l) => textWidth(l.says, textPx))) + 4);
  const total = needs.reduce((sum, w) => sum + w, 0);
  const widths = needs.map((w) => (needs.every((v) => v <= each) || total > all ? each : w + (each * needs.length - total) / needs.length));
  const left = (width - each * c.columns.length - gapPx * (c.columns.length - 1)) / 2;
  const drawn = c.columns.map((o, i) => {
    const before = widths.slice(0, i).reduce((sum, w) => sum + w + gapPx, 0);
    return columnSvg(o, c, { x: left + before, width: widths[i], barPx }, ink);
  });
  const under = Math.max(...drawn.map((d) => d.height)) + 6;
  const foot = paragraph(
    { x: 36, y: under, width: width - 44 },
    { text: `Above ${volts(c.limitV)}, the broken line, it hurts. Measure it, never time it.`, bold: true, tone: "ink" },
    ink,
  );
  const height = foot.y + 6;
  const across = c.example ? exampleAcross(width, tallPx + topPx, ink.faint) : "";
  return {
    height,
    svg: framed(
      { width, height },
      { title: c.title, words: chargeWords(c) },
      drawn.map((d) => d.svg).join("") + dangerSign(20, under + 10, ink) + foot.svg + across,
    ),
  };
}

/** The same in words. */
export const chargeWords = (c: Charge): string[] => [
  ...(c.example ? ["EXAMPLE, not this set."] : []),
  ...c.columns.map((o) => {
    const falls = o.falls.map((f) => `${volts(f.volts)} after ${seconds(f.afterS)}`).join(", ");
    return `${upperFirst(o.label)}: ${volts(o.fromV)} at once${falls === "" ? "" : `, ${falls}`}; ${o.says}`;
  }),
  `Above ${volts(c.limitV)} it hurts. Measure it, never time it.`,
];
