import { dangerBolt, dangerOutline } from "./circuit-symbols";
import type { Ink } from "./svg";
import { linesWithin } from "./text-width";

/** Words of a picture: 16 px at the width that it is drawn for. */
export const textPx = 16;
export const linePx = 20;
export interface Line {
  readonly text: string;
  readonly bold: boolean;
  readonly tone: "ink" | "accent";
}
export const escaped = (s: string): string => s.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
export const n = (v: number): string => String(Math.round(v * 10) / 10);

/** A line of text of 16 px, its box beginning at x, y. */
export const textLine = (x: number, y: number, line: Line, ink: Ink, anchor = "start"): string =>
  `<text x="${n(x)}" y="${n(y + 15)}" font-size="${textPx}"${line.bold ? ' font-weight="bold"' : ""}${anchor === "start" ? "" : ` text-anchor="${anchor}"`} fill="${line.tone === "accent" ? ink.accent : ink.ink}">${escaped(line.text)}</text>`;

/** The sign of danger, told by its shape whatever the colours. */
export const dangerSign = (x: number, y: number, ink: Ink): string =>
  `<g class="danger" transform="translate(${n(x)} ${n(y)})"><path d="${dangerOutline}" fill="${ink.ink}" stroke="${ink.ink}" stroke-width="2" stroke-linejoin="round"/><path d="${dangerBolt}" fill="${ink.paper}"/></g>`;

/** Lines of text one below the other, broken to a width; where the next goes. */
export function paragraph(
  at: { readonly x: number; readonly y: number; readonly width: number },
  line: Line,
  ink: Ink,
  anchor: "start" | "middle" = "start",
): { readonly svg: string; readonly y: number } {
  const lines = linesWithin(line.text, at.width, textPx);
  const x = anchor === "middle" ? at.x + at.width / 2 : at.x;
  return {
    svg: lines.map((text, i) => textLine(x, at.y + i * linePx, { ...line, text }, ink, anchor)).join(""),
    y: at.y + lines.length * linePx,
  };
}

/** A whole picture, its title and what it shows in words for who can't see it. */
export const framed = (
  size: { readonly width: number; readonly height: number },
  of: { readonly title: string; readonly words: readonly string[] },
  body: string,
): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${n(size.width)} ${n(size.height)}" role="img" aria-label="${escaped([`${of.title}.`, ...of.words].join(" "))}"><title>${escaped(of.title)}</title>${body}</svg>`;
