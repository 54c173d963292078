import type { Box, Curve, Ground } from "./ground";
import { textWidth } from "./text-width";

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
  /** beside which part of what it names, in hundredths of its way, and how far from there */
  readonly beside?: { readonly part: number; readonly dx: number; readonly dy: number };
}
export const overlaps = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Places along the line that leads from a name to what it names, so close that nothing stands between two: no other name stands over it. */
export function alongLeader({ leader }: Pick<Label, "leader">): readonly Box[] {
  if (!leader) return [];
  const [[x0, y0], [x1, y1]] = leader;
  const count = Math.ceil(Math.hypot(x1 - x0, y1 - y0) / 3);
  return Array.from({ length: count }, (_, i) => {
    const part = (i + 0.5) / count;
    return { x: x0 + (x1 - x0) * part - 1, y: y0 + (y1 - y0) * part - 1, width: 2, height: 2 };
  });
}
const leadsClear = (label: Pick<Label, "leader">, taken: readonly Box[]): boolean =>
  !alongLeader(label).some((b) => taken.some((t) => overlaps(b, t)));
const inside = (box: Box, plot: Box): boolean =>
  box.x >= plot.x && box.y >= plot.y && box.x + box.width <= plot.x + plot.width && box.y + box.height <= plot.y + plot.height;
const isFree = (box: Box, f: Ground, taken: readonly Box[]): boolean =>
  inside(box, f.plot) && !taken.some((t) => overlaps(box, t)) && f.isClear(box);

/** How wide and high a line of bold text is at most. */
export const boxOfText = (text: string, type: number): { readonly width: number; readonly height: number } => ({
  width: textWidth(text, type) + 4,
  height: type * 1.2,
});
/** Shares of a field that a line of a name may fill: as much as half of it, and less where that finds no place. */
const shares = [0.55, 0.35, 0.2] as const;
/** A label in as many lines as it takes to fill no more than a share of a field; a word stays whole. */
export function linesOfLabel(
  label: string,
  plot: { readonly width: number; readonly type: number },
  share: number = shares[0],
): readonly string[] {
  const lines: string[] = [];
  for (const word of label.split(" ")) {
    const longer = lines.length > 0 ? `${lines[lines.length - 1]} ${word}` : word;
    if (lines.length > 0 && boxOfText(longer, plot.type).width <= plot.width * share) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

interface Words {
  readonly lines: readonly string[];
  readonly width: number;
  readonly height: number;
}
/** A point of what is named, so many hundredths along its way. */
const along = (w: Wanted, part: number): Curve[number] => w.near[Math.round(((w.near.length - 1) * part) / 100)];
/** Right beside what it names. */
function beside(w: Wanted, words: Words, f: Ground, taken: readonly Box[]): Label | undefined {
  const { width, height } = words;
  let best: Label | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 1; k <= 99; k += 2) {
    const cost = w.best === "middle" ? Math.abs(k - 50) : k;
    if (cost >= least) continue;
    const [px, py] = along(w, k);
    for (const [dx, dy] of [
      [6, -height - 3],
      [-width - 6, -height - 3],
      [6, 4],
      [-width - 6, 4],
      [-width / 2, -height - 5],
      [-width / 2, 6],
    ]) {
      const box = { x: px + dx, y: py + dy, width, height };
      if (!isFree(box, f, taken)) continue;
      least = cost;
      best = { ...box, lines: words.lines, beside: { part: k, dx, dy } };
      break;
    }
  }
  return best;
}
/** Anywhere that is free, as near as can be, with a line to what it names. */
function away(w: Wanted, words: Words, f: Ground, taken: readonly Box[]): Label | undefined {
  const { width, height } = words;
  const { plot } = f;
  const step = plot.type / 2;
  const targets = Array.from({ length: 41 }, (_, i) => w.near[Math.round(((w.near.length - 1) * i) / 40)]);
  let best: Label | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (let y = plot.y; y + height <= plot.y + plot.height; y += step)
    for (let x = plot.x; x + width <= plot.x + plot.width; x += step) {
      const box = { x, y, width, height };
      // where there is no room at all nothing has to be measured
      if (best === undefined && !isFree(box, f, taken)) continue;
      const { far, to } = nearest(targets, box);
      if (far >= least) {
        // a place is nearer than another by no more than the way between them
        x += step * Math.floor((far - least) / step);
        continue;
      }
      if (best !== undefined && !isFree(box, f, taken)) continue;
      const label: Label = { ...box, lines: words.lines, leader: [inBox(to, box), to] };
      if (!leadsClear(label, taken)) continue;
      least = far;
      best = label;
    }
  return best;
}
const inBox = ([x, y]: Curve[number], box: Box): Curve[number] => [
  Math.min(Math.max(x, box.x), box.x + box.width),
  Math.min(Math.max(y, box.y), box.y + box.height),
];
/** The first of the points that lies nearest to a box, and how far it is. */
function nearest(points: Curve, box: Box): { readonly far: number; readonly to: Curve[number] } {
  let least = Number.POSITIVE_INFINITY;
  let to = points[0];
  for (const p of points) {
    const dx = Math.max(box.x - p[0], 0, p[0] - box.x - box.width);
    const dy = Math.max(box.y - p[1], 0, p[1] - box.y - box.height);
    const square = dx * dx + dy * dy;
    if (square >= least) continue;
    least = square;
    to = p;
  }
  return { far: Math.sqrt(least), to };
}

/** How far a name may come to stand from what it names before it is moved, in letters' heights. */
const nearEm = 1;
/** Where a name away from what it names may step aside, in letters' heights. */
const asideEm = [0.25, 0.5, 0.75].flatMap((by) => [[0, -by] as const, [0, by] as const, [-by, 0] as const, [by, 0] as const]);
/** Places round about where a name stood, the nearest first, in letters' heights. */
const roundEm = Array.from({ length: 41 * 41 }, (_, i) => [(i % 41) / 2 - 10, Math.floor(i / 41) / 2 - 10] as const)
  .filter(([dx, dy]) => Math.hypot(dx, dy) <= 10)
  .sort((a, b) => Math.hypot(...a) - Math.hypot(...b));
/**
 * The same place as before, while what it names moves; else along with it, a step aside, or as near as there is room: a name that jumps about can't be read.
 *
 * @param w what is named
 * @param at where its name stood
 * @param f what the picture holds now
 * @param taken names that stand already
 * @returns undefined where something lies in each of these places
 */
export function stayingAt(w: Wanted, at: Label, f: Ground, taken: readonly Box[]): Label | undefined {
  const { type } = f.plot;
  const { leader, beside } = at;
  const was = leader ? Math.hypot(leader[0][0] - leader[1][0], leader[0][1] - leader[1][1]) : 0;
  const [px, py] = along(w, beside?.part ?? 0);
  const others = beside
    ? [{ x: px + beside.dx, y: py + beside.dy }]
    : asideEm.map(([dx, dy]) => ({ x: at.x + dx * type, y: at.y + dy * type }));
  for (const place of [at, ...others]) {
    const box = { ...at, x: place.x, y: place.y };
    const { far, to } = nearest(w.near, box);
    if (far > was + type * nearEm || !inside(box, f.plot) || taken.some((t) => overlaps(box, t)) || !f.isClearOnce(box)) continue;
    const label: Label = leader ? { ...box, leader: [inBox(to, box), to] } : box;
    if (leadsClear(label, taken)) return label;
  }
  return roundAbout(w, at, f, taken);
}
/** The nearest free place to where a name stood, with a line to what it names where it comes to stand away from it. */
function roundAbout(w: Wanted, at: Label, f: Ground, taken: readonly Box[]): Label | undefined {
  const { type } = f.plot;
  const { lines, width, height } = at;
  for (const [dx, dy] of roundEm) {
    const box = { x: at.x + dx * type, y: at.y + dy * type, width, height };
    if (!isFree(box, f, taken)) continue;
    const { far, to } = nearest(w.near, box);
    const label: Label = far > type * nearEm ? { ...box, lines, leader: [inBox(to, box), to] } : { ...box, lines };
    if (leadsClear(label, taken)) return label;
  }
  return undefined;
}

/**
 * Where a name goes, so that no legend is needed: beside what it names, else near it with a line that leads there; over no curve, no point that was read
 * and no other name, and through no upright line: in shorter lines where a long one finds no such place.
 *
 * @param w what is named
 * @param f what the picture holds
 * @param taken names that stand already
 * @returns undefined where the field has no room left
 */
export function labelFor(w: Wanted, f: Ground, taken: readonly Box[]): Label | undefined {
  for (const how of [beside, away])
    for (const share of shares) {
      const label = how(w, wordsOf(w.text, f, share), f, taken);
      if (label) return label;
    }
  return undefined;
}
function wordsOf(text: string, { plot }: Ground, share: number): Words {
  const lines = linesOfLabel(text, plot, share);
  return { lines, width: Math.max(...lines.map((l) => boxOfText(l, plot.type).width)), height: lines.length * plot.type * 1.2 };
}
