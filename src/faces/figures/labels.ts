import type { DrawnTrace } from "./drawing";

/** Where words go in a picture: beside what they name, over nothing else. All lengths in px (or pt). */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
export type Curve = readonly (readonly [number, number])[];
const overlaps = (a: Box, b: Box): boolean => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

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
/** Points of a curve that a label would cover. */
function pointsWithin(curve: Curve, box: Box): number {
  let n = 0;
  for (let i = firstRightOf(curve, box.x - 2); i < curve.length && curve[i][0] < box.x + box.width + 2; i++)
    if (curve[i][1] > box.y - 1 && curve[i][1] < box.y + box.height + 1) n++;
  return n;
}

/** How wide and high a line of bold text is, near enough to keep clear of it. */
export const boxOfText = (text: string, type: number): { readonly width: number; readonly height: number } => ({
  width: text.length * type * 0.58 + 4,
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

/**
 * Where a trace's own label goes, so that no legend is needed: beside its curve, where it covers neither another curve nor another label.
 *
 * @param t the trace
 * @param all every curve as drawn, from left to right
 * @param own which of them is its own
 * @param taken what stands already
 * @param plot the field to stay in, and the size of the letters
 */
export function labelBox(
  t: DrawnTrace,
  all: readonly Curve[],
  own: number,
  taken: readonly Box[],
  plot: Box & { readonly type: number },
): Box {
  const lines = linesOfLabel(t.label, plot);
  const width = Math.max(...lines.map((l) => boxOfText(l, plot.type).width));
  const height = lines.length * plot.type * 1.2;
  let best: Box = { x: plot.x + 4, y: plot.y + 4, width, height };
  let least = Number.POSITIVE_INFINITY;
  const points = all[own];
  for (let k = 3; k <= 97; k += 2) {
    const [px, py] = points[Math.round(((points.length - 1) * k) / 100)];
    for (const [dx, dy] of [
      [6, -height - 3],
      [-width - 6, -height - 3],
      [6, 4],
      [-width - 6, 4],
      [-width / 2, -height - 5],
      [-width / 2, 6],
    ]) {
      const box: Box = { x: px + dx, y: py + dy, width, height };
      if (box.x < plot.x || box.y < plot.y || box.x + width > plot.x + plot.width || box.y + height > plot.y + plot.height) continue;
      let cost = Math.abs(k - 50) / 200;
      for (const other of taken) if (overlaps(box, other)) cost += 1000;
      for (let i = 0; i < all.length && cost < least; i++) cost += (i === own ? 1 : 2) * pointsWithin(all[i], box);
      if (cost < least) {
        least = cost;
        best = box;
      }
    }
  }
  return best;
}
