import type { Circuit, CircuitNode, CircuitPart, CircuitTube, Place } from "../../ask/drawn/circuit";
import type { Words } from "./circuit-labels";
import {
  type Away,
  awayFrom,
  type Band,
  boxOf,
  easyPx,
  type How,
  type Laid,
  type LaidPart,
  type LaidWords,
  leadPx,
  type Run,
  tightPx,
} from "./circuit-laid";
import { braidPx, endHalf, endPx, isSign, shapeOf, tubeRadius } from "./circuit-symbols";
import { columnsAt, type Gap, type Item } from "./circuit-tracks";

export class CircuitLayout {
  private readonly place = new Map<string, Place>();
  private readonly runs: Run[];
  private readonly items: Item[] = [];
  private readonly gaps: Gap[] = [];
  private readonly bands: Band[];
  private readonly pending: ((x: readonly number[], y: readonly number[]) => LaidWords)[] = [];
  private readonly columns: number;

  constructor(
    private readonly circuit: Circuit,
    private readonly how: How,
  ) {
    for (const n of circuit.nodes) this.place.set(n.id, (how.narrow && n.narrow) || n.at);
    this.columns = 1 + Math.max(...[...this.place.values()].map((p) => p[0]));
    const levels = 1 + Math.max(...[...this.place.values()].map((p) => p[1]));
    // the first band stands over the first level
    this.bands = Array.from({ length: levels + 1 }, () => ({ ends: 0, upright: 0, over: 0, flags: 0 }));
    this.runs = circuit.parts.map((part) => this.runOf(part));
    for (const r of this.runs) this.room(r);
    for (const t of circuit.tubes) this.roomForTube(t);
    for (const n of circuit.nodes) this.roomForEnd(n);
    for (const n of circuit.nodes) this.roomForFlag(n);
  }

  private at(id: string): Place {
    const p = this.place.get(id);
    if (!p) throw new Error(`circuit ${this.circuit.id}: no node ${id}`);
    return p;
  }
  private runOf(part: CircuitPart): Run {
    const [a, b] = [this.at(part.from), this.at(part.to)];
    const words = this.how.words(part, this.how.told.parts.get(part));
    return { part, a, b, upright: a[1] !== b[1], words };
  }
  private half(r: Run): number {
    if (r.part.kind === "block") return ((r.upright ? r.words?.width : r.words?.height) ?? 0) / 2 + 8;
    return shapeOf(r.part.kind, this.circuit.symbols).half;
  }
  private length(r: Run): number {
    if (r.part.kind === "block") return ((r.upright ? r.words?.height : r.words?.width) ?? 0) + 16;
    return shapeOf(r.part.kind, this.circuit.symbols).length;
  }
  /** The band under a level. */
  private under(level: number): Band {
    return this.bands[level + 1];
  }
  private upperOf = (r: Run): number => Math.min(r.a[1], r.b[1]);

  private room(r: Run): void {
    if (r.upright) this.roomUpright(r);
    else this.roomLevel(r);
  }
  private roomUpright(r: Run): void {
    const [column, top, bottom] = [r.b[0], this.upperOf(r), Math.max(r.a[1], r.b[1])];
    const half = this.half(r);
    for (let level = top; level < bottom; level++) for (const z of ["ends", "over", "flags"]) this.take(`${level}${z}`, column, 4, 4);
    this.take(`${top}upright`, column, r.part.braid ? braidPx.left : half, half);
    for (let level = top + 1; level < bottom; level++) this.take(`${level}upright`, column, 4, 4);
    const band = this.under(top);
    const labelled = r.part.kind !== "block" && r.words;
    band.upright = Math.max(band.upright, this.length(r) + (r.part.kind === "wire" ? 0 : 2 * leadPx), labelled ? labelled.height + 8 : 0);
    if (r.a[0] !== r.b[0]) this.gaps.push({ from: Math.min(r.a[0], r.b[0]), to: Math.max(r.a[0], r.b[0]), least: 24 });
    if (!r.words) return;
    if (r.part.kind === "block") {
      this.say(r.part, r.words, "middle", (x, y) => [x[column], this.middleOf(top, y) - r.words!.height / 2]);
      return;
    }
    this.take(`${top}upright`, column, 0, half + 6 + r.words.width);
    this.say(r.part, r.words, "start", (x, y) => [x[column] + half + 6, this.middleOf(top, y) - r.words!.height / 2]);
  }
  private roomLevel(r: Run): void {
    const [level, half, length] = [r.a[1], this.half(r), this.length(r)];
    const room = this.how.tight ? tightPx : easyPx;
    const [from, to] = [Math.min(r.a[0], r.b[0]), Math.max(r.a[0], r.b[0])];
    // signs of ends reach to both sides of their column, below the level
    const lead = this.circuit.nodes.some((o) => (o.id === r.part.from || o.id === r.part.to) && isSign(o.end))
      ? endHalf + room.sign
      : room.lead;
    this.gaps.push({
      from,
      to: from + 1,
      least: r.part.kind === "wire" ? room.columns : Math.max(length + 2 * lead, (r.words?.width ?? 0) + 16),
    });
    for (let c = from + 1; c < to; c++) this.gaps.push({ from: c, to: c + 1, least: room.columns });
    const [over, below] = [this.bands[level], this.under(level)];
    below.ends = Math.max(below.ends, (r.part.braid ? braidPx.below : half) + 2);
    const block = r.part.kind === "block";
    over.over = Math.max(over.over, half + (block || !r.words ? 4 : 8 + r.words.height));
    if (!r.words) return;
    const words = r.words;
    // words of other nodes keep out of the stretch between these two
    for (const c of [from, from + 1]) this.take(`${level - 1}over`, c, 0, 0);
    this.say(r.part, words, "middle", (x, y) => [
      (x[from] + x[from + 1]) / 2,
      block ? y[level] - words.height / 2 : y[level] - half - 6 - words.height,
    ]);
  }
  private roomForTube(t: CircuitTube): void {
    const [column, level] = this.at(t.grid).map((v, i) => (i === 0 ? v + 1 : v));
    const r = tubeRadius + 2;
    for (const l of [level - 1, level]) for (const z of ["ends", "upright", "over", "flags"]) this.take(`${l}${z}`, column, r, r);
    for (const l of [level - 1, level])
      this.under(l).upright = Math.max(this.under(l).upright, r + 12 - (l === level ? this.under(l).ends : 0));
    this.gaps.push({ from: column - 1, to: column, least: r + 14 });
    if (t.screen) this.gaps.push({ from: column, to: column + 1, least: r + 14 });
    const words = this.how.words(t, this.how.told.tubes.get(t));
    if (!words) return;
    const band = this.under(level);
    band.upright = Math.max(band.upright, words.height + 8);
    this.take(`${level}upright`, column, 0, r + 4 + words.width);
    this.say(t, words, "start", (x, y) => [x[column] + r + 4, this.middleOf(level, y) - words.height / 2]);
  }
  private roomForEnd(n: CircuitNode): void {
    const [column, level] = this.at(n.id);
    if (!isSign(n.end)) return;
    const band = this.under(level);
    // a frame is named once; one that is live is named wherever it stands
    const again = n.end === "chassis" && this.circuit.nodes.find((o) => o.end === "chassis") !== n;
    const words = again ? undefined : this.how.words(n, this.how.told.ends.get(n));
    band.ends = Math.max(band.ends, endPx + 4, (words?.height ?? 0) + 4);
    this.take(`${level}ends`, column, endHalf, endHalf + (words ? 2 + words.width : 0));
    if (words) this.say(n, words, "start", (x, y) => [x[column] + endHalf + 2, y[level] + 4]);
  }
  /** Words of a node over it, or beside the part that goes up from it. */
  private roomForFlag(n: CircuitNode): void {
    const words = this.how.words(n, this.how.told.nodes.get(n));
    if (!words) return;
    const [column, level] = this.at(n.id);
    const band = this.bands[level];
    const above = level - 1;
    const isUp = this.items.some((i) => i.zone === `${above}flags` && i.column === column);
    const levelRuns = this.runs.filter((r) => r.a[1] === level || r.b[1] === level);
    const crowded = levelRuns.some((r) => !r.upright && r.words && (r.a[0] === column || r.b[0] === column));
    const zone = crowded || band.over > words.height + 4 ? "flags" : "over";
    if (zone === "flags") band.flags = Math.max(band.flags, words.height + 4);
    else band.over = Math.max(band.over, words.height + 6);
    const top = (y: readonly number[]): number => y[level] - (zone === "flags" ? band.over + words.height : words.height + 6);
    if (!isUp) {
      const overhang = words.width / 2;
      this.take(`${above}${zone}`, column, overhang, overhang);
      this.say(n, words, "middle", (x, y) => [x[column], top(y)]);
      return;
    }
    const free = !this.items.some((i) => i.zone === `${above}${zone}` && i.column > column);
    this.take(`${above}${zone}`, column, free ? 0 : 8 + words.width, free ? 8 + words.width : 0);
    this.say(n, words, free ? "start" : "end", (x, y) => [x[column] + (free ? 8 : -8), top(y)]);
  }

  private take(zone: string, column: number, left: number, right: number): void {
    this.items.push({ zone, column, left, right });
  }
  private say(
    of: LaidWords["of"],
    words: Words,
    anchor: LaidWords["anchor"],
    at: (x: readonly number[], y: readonly number[]) => readonly [number, number],
  ): void {
    this.pending.push((x, y) => {
      const [px, py] = at(x, y);
      const left = anchor === "start" ? px : anchor === "end" ? px - words.width : px - words.width / 2;
      return { words, anchor, of, x: left, y: py, width: words.width, height: words.height };
    });
  }
  private middleOf(level: number, y: readonly number[]): number {
    const band = this.under(level);
    return y[level] + band.ends + band.upright / 2;
  }

  /** Whether it can be drawn within a width. */
  fits(width: number): boolean {
    return columnsAt(this.columns, this.items, this.gaps).width <= width;
  }
  /** Everything at its place, spread out over the width where there is more than it takes. */
  laid(width: number): Laid {
    const { x, width: taken } = columnsAt(this.columns, this.items, this.gaps, { width, most: 36 });
    const y: number[] = [];
    let down = 8;
    for (const b of this.bands) {
      down += b.ends + b.upright + b.over + b.flags;
      y.push(down);
    }
    // under the last level stands nothing over another
    y.pop();
    return {
      width: taken,
      height: down + 8,
      parts: this.runs.map((r) => this.laidPart(r, x, y)),
      tubes: this.circuit.tubes.map((tube) => {
        const [c, l] = this.at(tube.grid);
        return { tube, x: x[c + 1], y: y[l] };
      }),
      nodes: this.circuit.nodes.map((node) => this.laidNode(node, x, y)),
      words: this.pending.map((p) => p(x, y)),
    };
  }
  private laidNode(node: CircuitNode, x: readonly number[], y: readonly number[]): Laid["nodes"][number] {
    const [c, l] = this.at(node.id);
    const tubeLeads = this.circuit.tubes.filter((t) => [t.plate, t.cathode, t.grid, t.screen].includes(node.id)).length;
    const own = this.runs.filter((r) => r.part.from === node.id || r.part.to === node.id);
    const [first] = own;
    const other = first && (first.part.from === node.id ? first.b : first.a);
    const electrode = this.circuit.tubes.flatMap((t) => awayFrom(t, node.id));
    const away: Away = !other
      ? (electrode[0] ?? "left")
      : other[1] === l
        ? other[0] > c
          ? "left"
          : "right"
        : other[1] > l
          ? "up"
          : "down";
    return { node, x: x[c], y: y[l], joins: own.length + tubeLeads, away };
  }
  private laidPart(r: Run, x: readonly number[], y: readonly number[]): LaidPart {
    const [a, b] = [r.a, r.b].map(([c, l]) => [x[c], y[l]] as const);
    const path = r.upright && r.a[0] !== r.b[0] ? [a, [b[0], a[1]] as const, b] : [a, b];
    const from = Math.min(r.a[0], r.b[0]);
    const middle = r.upright ? ([b[0], this.middleOf(this.upperOf(r), y)] as const) : ([(x[from] + x[from + 1]) / 2, a[1]] as const);
    const box = r.part.kind === "block" && r.words ? boxOf(r.words, middle) : undefined;
    return { part: r.part, x: middle[0], y: middle[1], turned: r.upright, path, ...(box ? { box } : {}) };
  }
}
