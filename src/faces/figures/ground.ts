/** A place in a picture; all lengths in px (or pt). */
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
  /** where upright lines stand */
  readonly uprights: readonly number[];
}

/** Half a stroke, and the radius of a point that was read. */
const [clearPx, dotPx] = [2, 5];

/**
 * What a picture holds, laid out so that a box is looked up in it and not searched for: highest and lowest of each curve over any stretch of columns a pixel
 * wide. A curve is joined from point to point: it goes through a box where it is neither all above nor all below it.
 */
export class Ground {
  readonly plot: Field["plot"];
  private readonly uprights: readonly number[];
  private readonly curves: readonly Curve[];
  private laid: readonly Stretches[] | undefined;
  private readonly dots: Curve;
  constructor(f: Field) {
    this.plot = f.plot;
    this.uprights = f.uprights;
    this.curves = f.curves.filter((c) => c.length > 1);
    this.dots = [...f.dots].sort((a, b) => a[0] - b[0]);
  }
  /** Whether no curve, no upright line and no point that was read lies in a box. */
  isClear(box: Box): boolean {
    this.laid ??= this.curves.map((c) => laidOut(c, this.plot));
    const { laid } = this;
    return this.isClearOf(box, (...sides) => laid.some((c) => c.goesThrough(...sides)));
  }
  /** The same of a few boxes alone, for which nothing is laid out. */
  isClearOnce(box: Box): boolean {
    return this.isClearOf(box, (...sides) => this.curves.some((c) => goesThrough(c, ...sides)));
  }
  private isClearOf(box: Box, crossed: (left: number, right: number, top: number, foot: number) => boolean): boolean {
    const [left, right] = [box.x - clearPx, box.x + box.width + clearPx];
    if (this.uprights.some((x) => x > left && x < right)) return false;
    if (crossed(left, right, box.y - clearPx, box.y + box.height + clearPx)) return false;
    const { dots } = this;
    const end = box.x + box.width + dotPx;
    for (let i = firstRightOf(dots, box.x - dotPx); i < dots.length && dots[i][0] < end; i++)
      if (dots[i][1] > box.y - dotPx && dots[i][1] < box.y + box.height + dotPx) return false;
    return true;
  }
}
const stretches = new WeakMap<Curve, { readonly plot: Box; readonly of: Stretches }>();
/** A curve laid out; one that stands in a field as wide is not laid out again. */
function laidOut(curve: Curve, plot: Box): Stretches {
  const known = stretches.get(curve);
  if (known?.plot.x === plot.x && known.plot.width === plot.width) return known.of;
  const of = new Stretches(curve, plot);
  stretches.set(curve, { plot, of });
  return of;
}
/** Whether a curve, joined from point to point, is anywhere between two sides neither above nor below. */
function goesThrough(curve: Curve, left: number, right: number, top: number, foot: number): boolean {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = Math.max(1, firstRightOf(curve, left)); i < curve.length; i++) {
    const [x0, y0] = curve[i - 1];
    const [x1, y1] = curve[i];
    if (x0 > right) break;
    const at = (x: number): number => (x1 > x0 ? y0 + ((y1 - y0) * (x - x0)) / (x1 - x0) : y1);
    const [a, b] = [x0 < left ? at(left) : y0, x1 > right ? at(right) : y1];
    least = Math.min(least, a, b);
    most = Math.max(most, a, b);
  }
  return most >= top && least <= foot;
}
/** Index of the first point, from left to right, that lies right of x. */
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

/** Least and greatest y of a curve over stretches of 1, 2, 4 ... columns, made as they are asked for; where it doesn't run, the least is above the greatest. */
class Stretches {
  private readonly from: number;
  private readonly columns: number;
  private readonly least: Float64Array[];
  private readonly most: Float64Array[];
  constructor(curve: Curve, plot: Box) {
    this.from = Math.floor(plot.x) - 1;
    this.columns = Math.ceil(plot.width) + 3;
    const least = new Float64Array(this.columns).fill(Number.POSITIVE_INFINITY);
    const most = new Float64Array(this.columns).fill(Number.NEGATIVE_INFINITY);
    this.least = [least];
    this.most = [most];
    for (let i = 1; i < curve.length; i++) {
      const [x0, y0] = curve[i - 1];
      const [x1, y1] = curve[i];
      const slope = x1 > x0 ? (y1 - y0) / (x1 - x0) : 0;
      const end = Math.min(this.columns - 1, this.columnOf(x1));
      let a = y0;
      for (let k = this.columnOf(x0); k <= end; k++) {
        const b = x1 > x0 ? y0 + slope * (Math.min(x1, this.from + k + 1) - x0) : y1;
        if (k >= 0) {
          if (a < least[k]) least[k] = a;
          if (b < least[k]) least[k] = b;
          if (a > most[k]) most[k] = a;
          if (b > most[k]) most[k] = b;
        }
        a = b;
      }
    }
  }
  private columnOf(x: number): number {
    return Math.floor(x) - this.from;
  }
  /** Makes stretches of 2^level columns out of two halves each. */
  private madeTo(level: number): void {
    while (this.least.length <= level) {
      const half = 2 ** (this.least.length - 1);
      const [l, m] = [this.least[this.least.length - 1], this.most[this.most.length - 1]];
      const count = l.length - half;
      const [least, most] = [new Float64Array(count), new Float64Array(count)];
      for (let k = 0; k < count; k++) {
        least[k] = Math.min(l[k], l[k + half]);
        most[k] = Math.max(m[k], m[k + half]);
      }
      this.least.push(least);
      this.most.push(most);
    }
  }
  goesThrough(left: number, right: number, top: number, foot: number): boolean {
    const first = Math.max(0, this.columnOf(left));
    const last = Math.min(this.columns - 1, this.columnOf(right));
    if (last < first) return false;
    const level = 31 - Math.clz32(last - first + 1);
    this.madeTo(level);
    const second = last + 1 - 2 ** level;
    const [l, m] = [this.least[level], this.most[level]];
    return Math.max(m[first], m[second]) >= top && Math.min(l[first], l[second]) <= foot;
  }
}
