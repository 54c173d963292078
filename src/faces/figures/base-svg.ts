import type { BasePin, TubeBase } from "../../job/rollups/tube-base";
import { escaped, framed, linePx, n, textPx } from "./picture-text";
import { dayInk, type Ink } from "./svg";

/** Places round the circle by the number of pins: a miniature base leaves one out, an octal one has its key between two. Source: JEDEC and IEC 60067 basing, from memory. */
const placesOf: Readonly<Record<number, { readonly count: number; readonly half: boolean }>> = {
  7: { count: 8, half: false },
  8: { count: 8, half: true },
  9: { count: 10, half: false },
};
const [ringR, pinR, middleY] = [58, 9, 130] as const;

/**
 * Where a pin lies, seen from below, gap or key at the foot, numbers going clockwise from it.
 *
 * @param number of the pin, from 1
 * @param pinCount pins of the base: 7, 8 or 9
 * @returns angle from the top, clockwise, radian
 */
export function pinAngleRad(number: number, pinCount: number): number {
  const { count, half } = placesOf[pinCount] ?? { count: pinCount, half: true };
  return Math.PI + ((number - (half ? 0.5 : 0)) * 2 * Math.PI) / count;
}
const wordsOf = (p: BasePin): string => [`${p.number}`, p.electrode, p.read].filter((t) => t !== "").join(" ");

function pinSvg(p: BasePin, at: { readonly x: number; readonly angle: number; readonly lit: boolean }, ink: Ink): string {
  const [sin, cos] = [Math.sin(at.angle), -Math.cos(at.angle)];
  const [x, y] = [at.x + ringR * sin, middleY + ringR * cos];
  const anchor = Math.abs(sin) < 0.2 ? "middle" : sin > 0 ? "start" : "end";
  const lineCount = p.read === "" ? 1 : 2;
  // the words' middle lies outside the ring by their own half height
  const [tx, middle] = [at.x + (ringR + 26) * sin, middleY + (ringR + 26 + 10 * lineCount) * cos];
  const ty = middle + 5 - (lineCount - 1) * (linePx / 2);
  const fill = at.lit ? ink.accent : ink.ink;
  const weight = at.lit ? ' font-weight="bold"' : "";
  const lines = [`${p.number} ${p.electrode}`.trim(), p.read].filter((t) => t !== "");
  const text = lines.map(
    (l, i) =>
      `<text x="${n(tx)}" y="${n(ty + i * linePx)}" font-size="${textPx}" text-anchor="${anchor}"${weight} fill="${fill}">${escaped(l)}</text>`,
  );
  const disc = `<circle cx="${n(x)}" cy="${n(y)}" r="${at.lit ? pinR + 2 : pinR}" fill="${at.lit ? ink.accent : ink.paper}" stroke="${fill}" stroke-width="2"/>`;
  return disc + text.join("");
}

/**
 * A tube's base from below: its pins by number, what ends at each, what was read there, and the pin that is read now in the accent.
 *
 * @param base the tube
 * @param lit number of the pin that the probe is at; none where it isn't known
 * @param width px that it is drawn for
 * @param ink colours
 * @returns SVG markup and its height
 */
export function baseSvg(
  base: TubeBase,
  lit: number | undefined,
  width: number,
  ink: Ink = dayInk,
): { readonly svg: string; readonly height: number } {
  const x = width / 2;
  const height = 260;
  const octal = base.pins.length === 8;
  const foot = middleY + ringR - 26;
  const mark = octal
    ? `<path d="M${n(x - 12)} ${foot + 8}a12 12 0 1 1 24 0" fill="none" stroke="${ink.ink}" stroke-width="2"/><circle cx="${n(x)}" cy="${middleY}" r="24" fill="none" stroke="${ink.rule}" stroke-width="2"/>`
    : `<text x="${n(x)}" y="${foot + 8}" font-size="${textPx}" text-anchor="middle" fill="${ink.faint}">gap</text>`;
  const ring = `<circle cx="${n(x)}" cy="${middleY}" r="${ringR + 18}" fill="none" stroke="${ink.ink}" stroke-width="2"/>`;
  const pins = base.pins.map((p) => pinSvg(p, { x, angle: pinAngleRad(p.number, base.pins.length), lit: p.number === lit }, ink));
  const words = [...(lit === undefined ? [] : [`The probe is at pin ${lit}.`]), ...base.pins.map((p) => `Pin ${wordsOf(p)}.`)];
  return {
    height,
    svg: framed({ width, height }, { title: `${base.socket}, ${base.type}, from below`, words }, ring + mark + pins.join("")),
  };
}
