import type { Lamp, Lamps } from "../../ask/drawn/lamps";
import { upperFirst } from "../../units/sentence";
import { framed, n, paragraph } from "./picture-text";
import { dayInk, exampleAcross, type Ink } from "./svg";

const [radius, middleY, gapPx] = [26, 52, 12] as const;

/** A bulb by its share of its volts: fill for the eye, rays for who sees no colour. */
function bulb(l: Lamp, x: number, ink: Ink): string {
  const share = Math.min(1, Math.max(0, l.share));
  const glow = Math.round(share ** 1.5 * 90) / 100;
  const rays = Array.from({ length: 8 }, (_, i) => {
    const a = (i * Math.PI) / 4 + Math.PI / 8;
    const [from, to] = [radius + 5, radius + 5 + 16 * share];
    return share < 0.12
      ? ""
      : `<path d="M${n(x + from * Math.sin(a))} ${n(middleY - from * Math.cos(a))}L${n(x + to * Math.sin(a))} ${n(middleY - to * Math.cos(a))}" stroke="${ink.accent}" stroke-width="${n(1.5 + 2 * share)}" stroke-linecap="round"/>`;
  });
  const d = radius * Math.SQRT1_2;
  const cross = `M${n(x - d)} ${n(middleY - d)}L${n(x + d)} ${n(middleY + d)}M${n(x - d)} ${n(middleY + d)}L${n(x + d)} ${n(middleY - d)}`;
  return `${rays.join("")}<circle cx="${n(x)}" cy="${middleY}" r="${radius}" fill="${ink.accent}" fill-opacity="${glow}" stroke="${ink.ink}" stroke-width="${l.read ? 4 : 2}"/><path d="${cross}" stroke="${ink.ink}" stroke-width="2"/>`;
}

/**
 * Lamps side by side, each glowing by its volts.
 *
 * @param l the lamps
 * @param width px that they are drawn for
 * @param ink colours
 * @returns SVG markup and its height
 */
export function lampsSvg(l: Lamps, width: number, ink: Ink = dayInk): { readonly svg: string; readonly height: number } {
  const each = Math.min(220, (width - 16 - gapPx * (l.lamps.length - 1)) / l.lamps.length);
  const left = (width - each * l.lamps.length - gapPx * (l.lamps.length - 1)) / 2;
  const drawn = l.lamps.map((lamp, i) => {
    const x = left + i * (each + gapPx);
    const label = paragraph(
      { x, y: 104, width: each },
      { text: lamp.label, bold: true, tone: lamp.read ? "accent" : "ink" },
      ink,
      "middle",
    );
    const says = paragraph({ x, y: label.y, width: each }, { text: lamp.says, bold: false, tone: "ink" }, ink, "middle");
    return { svg: bulb(lamp, x + each / 2, ink) + label.svg + says.svg, y: says.y };
  });
  const height = Math.max(104, ...drawn.map((d) => d.y)) + 8;
  const across = l.example ? exampleAcross(width, height, ink.faint) : "";
  return { height, svg: framed({ width, height }, { title: l.title, words: lampsWords(l) }, drawn.map((d) => d.svg).join("") + across) };
}

/** The same in words. */
export const lampsWords = (l: Lamps): string[] => [
  ...(l.example ? ["EXAMPLE, not this set."] : []),
  ...l.lamps.map((o) => `${upperFirst(o.label)}: ${o.says}.`),
];
