import type { DialFace } from "../../ask/drawn/dial-face";
import { upperFirst } from "../../units/sentence";
import type { Box } from "./circuit-laid";
import { framed, linePx, n, paragraph, textLine, textPx } from "./picture-text";
import { dayInk, exampleAcross, type Ink } from "./svg";
import { textWidth } from "./text-width";

const sweepRad = (150 * Math.PI) / 180;
const meet = (a: Box, b: Box): boolean => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Where things of a dial are: pixels by readings. */
export interface DialRoom {
  readonly radius: number;
  readonly at: (reading: number, out: number) => readonly [number, number];
  readonly angle: (reading: number) => number;
  readonly height: number;
}
export function dialRoom(d: DialFace, width: number): DialRoom {
  const widest = Math.max(30, ...d.marks.map((m) => textWidth(m.text ?? "", textPx)));
  const radius = Math.min(300, (width / 2 - widest - 24) / Math.sin(sweepRad / 2));
  const hub = { x: width / 2, y: radius + 48 };
  const angle = (r: number): number => ((r - d.scale.from) / (d.scale.to - d.scale.from) - 0.5) * sweepRad;
  return {
    radius,
    angle,
    at: (r, out) => [hub.x + (radius + out) * Math.sin(angle(r)), hub.y - (radius + out) * Math.cos(angle(r))],
    height: hub.y + 16,
  };
}
/** Words of the marks outside the scale; one that would meet another is left to its tick. */
export function dialLabels(d: DialFace, room: DialRoom): readonly (Box & { readonly text: string })[] {
  const out: (Box & { readonly text: string })[] = [];
  for (const m of d.marks) {
    if (m.text === undefined) continue;
    const width = textWidth(m.text, textPx);
    const [x, y] = room.at(m.at, 18);
    const lean = Math.sin(room.angle(m.at));
    const box = { x: x - width / 2 + (lean * width) / 2, y: y - linePx / 2 - 4, width, height: linePx, text: m.text };
    if (!out.some((o) => meet({ ...o, x: o.x - 6, width: o.width + 12 }, box))) out.push(box);
  }
  return out;
}
const path = (points: readonly (readonly [number, number])[], close = false): string =>
  `M${points.map(([x, y]) => `${n(x)} ${n(y)}`).join("L")}${close ? "z" : ""}`;
const along = (from: number, to: number, count = 48): number[] =>
  Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);
/** Room of the band of what is not known, px at its widest. */
const bandPx = 16;

function bandSvg(d: DialFace, room: DialRoom, ink: Ink): string {
  const band = d.doubt?.along ?? [];
  const most = Math.max(0, ...band.map((o) => o.half));
  if (!(most > 0)) return "";
  const thick = (half: number): number => 1 + bandPx * (half / most);
  const outer = band.map((o) => room.at(o.at, -8));
  const inner = [...band].reverse().map((o) => room.at(o.at, -8 - thick(o.half)));
  return `<path class="doubt" d="${path([...outer, ...inner], true)}" fill="${ink.ink}" fill-opacity="0.18"/>`;
}
function scaleSvg(d: DialFace, room: DialRoom, ink: Ink): string {
  const line = `<path d="${path(along(d.scale.from, d.scale.to).map((r) => room.at(r, 0)))}" fill="none" stroke="${ink.ink}" stroke-width="2"/>`;
  const ticks = d.marks.map((m) => path([room.at(m.at, 0), room.at(m.at, m.text === undefined ? 6 : 10)])).join("");
  const safe = d.window
    ? `<path class="window" d="${path(along(d.window.from, d.window.to).map((r) => room.at(r, 0)))}" fill="none" stroke="${ink.accent}" stroke-width="7"/>`
    : "";
  const edges = d.edges.map((e) => path([room.at(e.at, -30), room.at(e.at, 14)])).join("");
  const beats = d.beats.map((b) => {
    const [x, y] = room.at(b.at, -36);
    return `<circle class="beat" cx="${n(x)}" cy="${n(y)}" r="3.5" fill="${ink.ink}"/>`;
  });
  return `${bandSvg(d, room, ink)}${line}<path d="${ticks}" stroke="${ink.ink}" stroke-width="1.6" fill="none"/>${safe}<path d="${edges}" stroke="${ink.ink}" stroke-width="3" fill="none"/>${beats.join("")}`;
}
function pointerSvg(d: DialFace, room: DialRoom, ink: Ink): string {
  const p = d.pointer;
  const [hx, hy] = room.at(d.scale.from, -room.radius);
  const hub = `<circle cx="${n(hx)}" cy="${n(hy)}" r="9" fill="${ink.paper}" stroke="${ink.ink}" stroke-width="3"/>`;
  if (!p) return hub;
  const inScale = (r: number): number => Math.min(d.scale.to, Math.max(d.scale.from, r));
  const wedge = along(inScale(p.at - p.half), inScale(p.at + p.half), 12).map((r) => room.at(r, -2));
  return `<path d="${path([[hx, hy], ...wedge], true)}" fill="${ink.accent}" fill-opacity="0.22"/><path d="${path([[hx, hy], room.at(inScale(p.at), 4)])}" stroke="${ink.accent}" stroke-width="3.5" stroke-linecap="round"/>${hub}`;
}
/** What the drawing's parts are, a line each, with the part itself before it. */
function keySvg(d: DialFace, y: number, width: number, ink: Ink): { readonly svg: string; readonly y: number } {
  const lines: (readonly [sample: string, text: string, accent?: true])[] = [
    ...(d.pointer
      ? ([[`<path d="M10 10H30" stroke="${ink.accent}" stroke-width="3.5" stroke-linecap="round"/>`, d.pointer.says, true]] as const)
      : []),
    ...(d.window ? ([[`<path d="M10 10H30" stroke="${ink.accent}" stroke-width="7"/>`, d.window.says]] as const) : []),
    ...d.edges.map((e) => [`<path d="M20 2V18" stroke="${ink.ink}" stroke-width="3"/>`, e.says] as const),
    ...(d.doubt ? ([[`<rect x="10" y="4" width="20" height="12" fill="${ink.ink}" fill-opacity="0.18"/>`, d.doubt.says]] as const) : []),
    ...(d.beats.length > 0 ? ([[`<circle cx="20" cy="10" r="3.5" fill="${ink.ink}"/>`, beatsSaid(d)]] as const) : []),
  ];
  let at = y;
  const out = lines.map(([sample, text, accent]) => {
    const p = paragraph({ x: 42, y: at, width: width - 50 }, { text, bold: accent ?? false, tone: accent ? "accent" : "ink" }, ink);
    const svg = `<g transform="translate(0 ${n(at)})">${sample}</g>${p.svg}`;
    at = p.y + 4;
    return svg;
  });
  return { svg: out.join(""), y: at };
}
const beatsSaid = (d: DialFace): string =>
  d.beats.length === 1 ? "one marker heard, where it was" : `${d.beats.length} markers heard, where each was`;

/**
 * A dial as a dial.
 *
 * @param d the dial
 * @param width px that it is drawn for
 * @param ink colours
 * @returns SVG markup and its height
 */
export function dialSvg(d: DialFace, width: number, ink: Ink = dayInk): { readonly svg: string; readonly height: number } {
  const room = dialRoom(d, width);
  const labels = dialLabels(d, room).map((l) => textLine(l.x, l.y, { text: l.text, bold: false, tone: "ink" }, ink));
  const says = paragraph({ x: 0, y: room.height, width }, { text: d.scale.says, bold: false, tone: "ink" }, ink, "middle");
  const key = keySvg(d, says.y + 6, width, ink);
  const height = key.y + 4;
  const across = d.example ? exampleAcross(width, room.height, ink.faint) : "";
  return {
    height,
    svg: framed(
      { width, height },
      { title: d.title, words: dialWords(d) },
      scaleSvg(d, room, ink) + pointerSvg(d, room, ink) + labels.join("") + says.svg + key.svg + across,
    ),
  };
}

/** The same in words. */
export const dialWords = (d: DialFace): string[] => [
  ...(d.example ? ["EXAMPLE, not this set."] : []),
  `A scale in ${d.scale.says}.`,
  ...(d.pointer ? [`${upperFirst(d.pointer.says)}.`] : []),
  ...(d.window ? [`${upperFirst(d.window.says)}.`] : []),
  ...d.edges.map((e) => `${upperFirst(e.says)}.`),
  ...(d.doubt ? [`${upperFirst(d.doubt.says)}.`] : []),
  ...(d.beats.length > 0 ? [`${beatsSaid(d)}: ${d.beats.map((b) => b.says).join(", ")}.`] : []),
];
