import { textWidth } from "./text-width";

/** Where words go in a picture: beside what they name, over nothing that is drawn. All lengths in px (or pt). */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
export type Curve = readonly (readonly [number, number])[];
/** What a picture holds before anything in it is named. */
export interface Field {
  /** the field to stay in, and the size of the letters */
  readonly plot: Box & { readonly type: number };
  /** every curve as drawn, from left to right */
  readonly curves: readonly Curve[];
  /** what was measured */
  readonly dots: Curve;
  /** where upright lines stand: words may lie over one, but rather don't */
  readonly uprights: readonly number[];
}
/** Something to be named: its name, and what it stands beside, best at its middle or at its start. */
export interface Wanted {
  readonly text: string;
  readonly near: Curve;
  readonly best: "middle" | "start";
}
export interface Label extends Box {
  readonly lines: readonly string[];
  /** from the words to what they name, where they stand away from it */
  readonly leader?: readonly [readonly [number, number], readonly [number, number]];
}
export const overlaps = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Half a stroke, and the radius of a point that was read. */
const [clearPx, dotPx] = [2, 5];

/** Index of the first point of a curve, drawn from left to right, that lies right of x. */
function firstRightOf(curve: Curve, x: number): number {
  let low = 0;
  let high = curve.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (curve[mid][0] > x) high = mid;
    else low = mid + 1;
  }
  return low;
}
/** Whether a curve, joined from point to point, goes through a box. */
export function crosses(curve: Curve, box: Box): boolean {
  const [left, right] = [box.x - clearPx, box.x + box.width + clearPx];
  const [top, foot] = [box.y - clearPx, box.y + box.height + clearPx];
  for (let i = Math.max(1, firstRightOf(curve, left)); i < curve.length && curve[i - 1][0] <= right; i++) {
    const [[x0, y0], [x1, y1]] = [curve[i - 1], curve[i]];
    const at = (x: number): number => (x1 === x0 ? y1 : y0 + ((y1 - y0) * (x - x0)) / (x1 - x0));
    const [a, b] = [x0 < left ? at(left) : y0, x1 > right ? at(right) : y1];
    if (Math.max(a, b) >= top && Math.min(a, b) <= foot) return true;
  }
  return false;
}
const within = (box: Box, [x, y]: readonly [number, number], by: number): boolean =>
  x > box.x - by && x < box.x + box.width + by && y > box.y - by && y < box.y + box.height + by;
const inside = (box: Box, plot: Box): boolean =>
  box.x >= plot.x && box.y >= plot.y && box.x + box.width <= plot.x + plot.width && box.y + box.height <= plot.y + plot.height;
const isFree = (box: Box, f: Field, taken: readonly Box[]): boolean =>
  inside(box, f.plot) &&
  !taken.some((t) => overlaps(box, t)) &&
  !f.dots.some((p) => within(box, p, dotPx)) &&
  !f.curves.some((c) => crosses(c, box));

/** How wide and high a line of bold text is at most. */
export const boxOfText = (text: string, type: number): { readonly width: number; readonly height: number } => ({
  width: textWidth(text, type) + 4,
  height: type * 1.2,
});
/** A label in as many lines as it takes to fill no more than half of a field; a word stays whole. */
export function linesOfLabel(label: string, plot: { readonly width: number; readonly type: number }): readonly string[] {
  const lines: string[] = [];
  for (const word of label.split(" ")) {
    const longer = lines.length > 0 ? `${lines[lines.length - 1]} ${word}` : word;
    if (lines.length > 0 && boxOfText(longer, plot.type).width <= plot.width * 0.55) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

interface Words {
  readonly lines: readonly string[];
  readonly width: number;
  readonly height: number;
}
/** Right beside what it names. */
function beside(w: Wanted, words: Words, f: Field, taken: readonly Box[]): Label | undefined {
  const { width, height } = words;
  let best: Label | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 1; k <= 99; k += 2) {
    const [px, py] = w.near[Math.round(((w.near.length - 1) * k) / 100)];
    for (const [dx, dy] of [
      [6, -height - 3],
      [-width - 6, -height - 3],
      [6, 4],
      [-width - 6, 4],
      [-width / 2, -height - 5],
      [-width / 2, 6],
    ]) {
      const box = { x: px + dx, y: py + dy, width, height };
      const over = f.uprights.filter((x) => x > box.x && x < box.x + width).length;
      const cost = (w.best === "middle" ? Math.abs(k - 50) : k) / 200 + over;
      if (cost >= least || !isFree(box, f, taken)) continue;
      least = cost;
      best = { ...box, lines: words.lines };
    }
  }
  return best;
}
/** Anywhere that is free, as near as can be, with a line to what it names. */
function away(w: Wanted, words: Words, f: Field, taken: readonly Box[]): Label | undefined {
  const { width, height } = words;
  const { plot } = f;
  const step = plot.type / 2;
  const targets = Array.from({ length: 41 }, (_, i) => w.near[Math.round(((w.near.length - 1) * i) / 40)]);
  let best: Label | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (let y = plot.y; y + height <= plot.y + plot.height; y += step)
    for (let x = plot.x; x + width <= plot.x + plot.width; x += step) {
      const box = { x, y, width, height };
      if (!isFree(box, f, taken)) continue;
      for (const to of targets) {
        const from = [Math.min(Math.max(to[0], x), x + width), Math.min(Math.max(to[1], y), y + height)] as const;
        const far = Math.hypot(to[0] - from[0], to[1] - from[1]);
        if (far >= least) continue;
        least = far;
        best = { ...box, lines: words.lines, leader: [from, to] };
      }
    }
  return best;
}

/**
 * Where a name goes, so that no legend is needed: beside what it names, else near it with a line that leads there; over no curve, no point that was read
 * and no other name.
 *
 * @param w what is named
 * @param f what the picture holds
 * @param taken names that stand already
 * @returns undefined where the field has no room left
 */
export function labelFor(w: Wanted, f: Field, taken: readonly Box[]): Label | undefined {
  const lines = linesOfLabel(w.text, f.plot);
  const words = {
    lines,
    width: Math.max(...lines.map((l) => boxOfText(l, f.plot.type).width)),
    height: lines.length * f.plot.type * 1.2,
  };
  return beside(w, words, f, taken) ?? away(w, words, f, taken);
}
