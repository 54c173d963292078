import { type Halved, halved } from "../../numerics/halving";
import { median } from "../../numerics/order";
import { type Frame, Frames } from "./frames";
import type { Listener } from "./listener";
import { highestHz, usedShare } from "./note";

/** Bands that are looked at apart, Hz. */
export const crackleBands = [
  { name: "low", fromHz: 90, toHz: 300 },
  { name: "middle", fromHz: 300, toHz: 1500 },
  { name: "high", fromHz: 1500, toHz: 5000 },
] as const satisfies readonly { readonly name: BandName; readonly fromHz: number; readonly toHz: number }[];
export const bandNames = ["low", "middle", "high"] as const;
export type BandName = (typeof bandNames)[number];
/** Something that happened to the level, in some bands at once. */
export interface CrackleEvent {
  readonly kind: "burst" | "jump";
  readonly atS: number;
  readonly bands: readonly BandName[];
  /** how far above what stood before in the band where it was most; a jump's sign is its way, dB */
  readonly db: number;
  /** of a burst, s */
  readonly lastsS: number;
}
export interface CrackleTold {
  readonly secondsCount: number;
  readonly events: readonly CrackleEvent[];
  /** bursts come evenly, so many a second; none where they come by chance */
  readonly evenlyHz?: number | undefined;
}
const leastRateHz = 10_000;
const frameSamples = 128;
/** Frames of half a second, whose median is what stands there. */
const blockS = 0.5;
/** A burst stands so far above that: in dB, and in scatters of a frame. Noise alone does that less than once in ten minutes (tested). */
const burstDb = 8;
const burstScatters = 6;
const longestBurstS = 0.3;
/** A jump stays for two blocks at least. */
const jumpDb = 3;
const jumpScatters = 1.5;
/** Before it and behind it the level moves by no more than this share of it: a fade does, as it goes on. */
const stillShare = 0.25;
/** Frames looked at to both sides of a jump, and left out between. */
const besideFrames = 16;
const apartFrames = 5;
/** A burst is in the bands that hold its power: what leaks into a neighbour is this much weaker, dB. */
const leaksDb = 15;
/** Events of two bands so near are one. */
const sameBurstS = 0.04;
const sameJumpS = 0.25;
/** Frames apart that are one event. */
const sameFrames = 3;

/** What was found in one band, by frames. */
interface Found {
  readonly kind: CrackleEvent["kind"];
  readonly at: number;
  readonly length: number;
  readonly db: number;
  /** highest level of a burst, dB */
  readonly level: number;
}
const scatterOf = (levels: readonly number[], about: number): number => 1.4826 * median(levels.map((v) => Math.abs(v - about)));

function foundIn(levels: readonly number[], perBlock: number): Found[] {
  const blocks = Array.from({ length: Math.floor(levels.length / perBlock) }, (_, j) => levels.slice(j * perBlock, (j + 1) * perBlock));
  if (blocks.length < 3) return [];
  const stands = blocks.map((b) => median(b));
  const scatter = median(blocks.map((b, j) => scatterOf(b, stands[j])));
  const jumps = jumpsIn(levels, stands, { perBlock, least: Math.max(jumpDb, jumpScatters * scatter) });
  return [...burstsIn(levels, stands, { perBlock, least: Math.max(burstDb, burstScatters * scatter), jumps }), ...jumps];
}
interface How {
  readonly perBlock: number;
  readonly least: number;
}
function jumpsIn(levels: readonly number[], stands: readonly number[], { perBlock, least }: How): Found[] {
  const out: Found[] = [];
  for (let j = 2; j + 2 <= stands.length; j++) {
    const [before, after] = [(stands[j - 2] + stands[j - 1]) / 2, (stands[j] + stands[j + 1]) / 2];
    const db = after - before;
    const holds =
      Math.abs(stands[j - 2] - stands[j - 1]) < Math.abs(db) * stillShare &&
      Math.abs(stands[j] - stands[j + 1]) < Math.abs(db) * stillShare;
    // a jump in the middle of a block leaves that block between the two
    const late = j + 2 < stands.length && Math.abs(stands[j + 2] - stands[j - 1]) > Math.abs(db) + least / 2;
    if (!(Math.abs(db) > least && holds) || late) continue;
    out.push({
      kind: "jump",
      at: crossing(levels, (j - 1) * perBlock, (j + 1) * perBlock, { from: before, to: after }),
      length: 0,
      db,
      level: 0,
    });
    j += 1;
  }
  return [...out, ...throughABlock(levels, stands, { perBlock, least }, out)]
    .filter((f) => isAbrupt(levels, f))
    .sort((a, b) => a.at - b.at);
}
/** Most of a jump is there within a tenth of a second; a fade's never is. */
function isAbrupt(levels: readonly number[], { at, db }: Found): boolean {
  const before = levels.slice(Math.max(0, at - apartFrames - besideFrames), Math.max(1, at - apartFrames));
  const after = levels.slice(at + apartFrames, at + apartFrames + besideFrames);
  return before.length > 0 && after.length > 0 && (median(after) - median(before)) / db > 0.6;
}
/** Jumps that fall into a block, whose own median then lies between. */
function throughABlock(levels: readonly number[], stands: readonly number[], { perBlock, least }: How, had: readonly Found[]): Found[] {
  const out: Found[] = [];
  for (let j = 2; j + 3 <= stands.length; j++) {
    const [before, after] = [(stands[j - 2] + stands[j - 1]) / 2, (stands[j + 1] + stands[j + 2]) / 2];
    const db = after - before;
    const holds =
      Math.abs(stands[j - 2] - stands[j - 1]) < Math.abs(db) * stillShare &&
      Math.abs(stands[j + 1] - stands[j + 2]) < Math.abs(db) * stillShare;
    const between = (stands[j] - before) / db;
    if (!(Math.abs(db) > least && holds && between > -0.3 && between < 1.3)) continue;
    const at = crossing(levels, j * perBlock - perBlock / 2, (j + 1) * perBlock + perBlock / 2, { from: before, to: after });
    if ([...had, ...out].some((f) => Math.abs(f.at - at) < 2 * perBlock)) continue;
    out.push({ kind: "jump", at, length: 0, db, level: 0 });
  }
  return out;
}
/** The frame from which on more frames than not lie on the other side. */
function crossing(
  levels: readonly number[],
  first: number,
  last: number,
  { from, to }: { readonly from: number; readonly to: number },
): number {
  const middle = (from + to) / 2;
  const [a, b] = [Math.max(0, Math.floor(first)), Math.min(levels.length, Math.ceil(last))];
  let best = a;
  let most = Number.NEGATIVE_INFINITY;
  let score = 0;
  // the split that most frames agree with
  for (let i = b - 1; i >= a; i--) {
    score += levels[i] > middle === to > from ? 1 : -1;
    if (score > most) [best, most] = [i, score];
  }
  return best;
}
function burstsIn(levels: readonly number[], stands: readonly number[], how: How & { readonly jumps: readonly Found[] }): Found[] {
  const { perBlock, least, jumps } = how;
  const floorAt = (j: number): number => median(stands.slice(Math.max(0, j - 1), j + 2));
  const floors = stands.map((_, j) => floorAt(j));
  const out: Found[] = [];
  let open: { at: number; last: number; db: number; level: number } | undefined;
  const close = (): void => {
    if (open) out.push({ kind: "burst", at: open.at, length: open.last - open.at + 1, db: open.db, level: open.level });
    open = undefined;
  };
  for (let i = 0; i < stands.length * perBlock; i++) {
    const over = levels[i] - floors[Math.floor(i / perBlock)];
    if (over > least) {
      open ??= { at: i, last: i, db: over, level: levels[i] };
      open.last = i;
      open.db = Math.max(open.db, over);
      open.level = Math.max(open.level, levels[i]);
    } else if (open && i - open.last > sameFrames) close();
  }
  close();
  // what is louder for longer is a change of level, and what lies at a jump is the jump
  return out.filter((f) => f.length <= (longestBurstS / blockS) * perBlock && !jumps.some((j) => Math.abs(j.at - f.at) < perBlock / 2));
}

/**
 * Bursts and jumps of the level, each with its time and the bands that it is in.
 *
 * @source level above the median of its time; limits by common practice, no source
 */
export class Crackle implements Listener {
  private readonly front: Halved;
  private readonly frames: Frames;
  private readonly levels: number[][] = crackleBands.map(() => []);
  private samples = 0;

  /** @param sampleRateHz samples a second */
  constructor(sampleRateHz: number) {
    this.front = halved(sampleRateHz, Math.min(highestHz, usedShare * sampleRateHz), leastRateHz);
    this.frames = new Frames(this.front.rateHz, frameSamples, frameSamples / 2);
  }
  push(x: Float64Array): void {
    const y = this.front.push(x);
    this.samples += y.length;
    this.frames.push(y, (frame) => this.take(frame));
  }
  private take({ power, binHz }: Frame): void {
    for (const [b, { fromHz, toHz }] of crackleBands.entries()) {
      let sum = 0;
      for (let k = Math.max(1, Math.ceil(fromHz / binHz)); k < power.length && k * binHz < toHz; k++) sum += power[k];
      this.levels[b].push(10 * Math.log10(Math.max(1e-18, sum / (power.length * this.frames.windowSquares))));
    }
  }
  get told(): CrackleTold {
    const hopS = this.frames.hop / this.front.rateHz;
    const perBlock = Math.round(blockS / hopS);
    const each = crackleBands.map((b, i) => foundIn(this.levels[i], perBlock).map((f) => ({ ...f, band: b.name })));
    const groups: (Found & { readonly band: BandName })[][] = [];
    for (const f of each.flat().sort((a, b) => a.at - b.at)) {
      const near = f.kind === "jump" ? sameJumpS : sameBurstS;
      const group = groups.findLast((g) => g[0].kind === f.kind && Math.abs(g[0].at - f.at) * hopS < near);
      if (group && !group.some((g) => g.band === f.band)) group.push(f);
      else groups.push([f]);
    }
    const events = groups.map((g) => eventOf(g, hopS));
    return { secondsCount: this.samples / this.front.rateHz, events, evenlyHz: evenly(events) };
  }
}
/** What was found at once in some bands, as one event. */
function eventOf(group: readonly (Found & { readonly band: BandName })[], hopS: number): CrackleEvent {
  const loudest = Math.max(...group.map((f) => f.level));
  const own = group.filter((f) => f.level > loudest - leaksDb);
  const most = own.reduce((a, b) => (Math.abs(b.db) > Math.abs(a.db) ? b : a));
  const atS = Math.min(...own.map((f) => f.at)) * hopS;
  return { kind: most.kind, atS, bands: own.map((f) => f.band), db: most.db, lastsS: Math.max(...own.map((f) => f.length)) * hopS };
}
/** How often bursts come, where they come evenly; none where by chance. */
function evenly(events: readonly CrackleEvent[]): number | undefined {
  const at = events.filter((e) => e.kind === "burst").map((e) => e.atS);
  if (at.length < 12) return undefined;
  const gaps = at.slice(1).map((t, i) => t - at[i]);
  const usual = median(gaps);
  const even = gaps.filter((g) => Math.abs(g - usual) < 0.12 * usual).length;
  return even > 0.8 * gaps.length ? 1 / usual : undefined;
}
