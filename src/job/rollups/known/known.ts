import { medianRank, proportionInterval } from "../../../numerics/binomial";
import type { PartSeen, SetSeen } from "./seen";

/** With fewer sets nothing is called typical. The fewest whose smallest and largest hold a median at 95 % (see `medianRank`). */
export const leastSets = 6;
const confidence = 0.95;

/** How often something was so, by sets: of `ofCount` sets in which it was judged. The interval only where there are enough of them. */
export interface Often {
  readonly hitCount: number;
  readonly ofCount: number;
  readonly low?: number;
  readonly high?: number;
}
/** The middle one of a figure over sets, and what holds it at 95 %. */
export interface Middle {
  readonly median: number;
  readonly low: number;
  readonly high: number;
  readonly ofCount: number;
}
/** What the records know of one thing. */
export interface KnownLine {
  readonly what: string;
  readonly sets: Often;
  /** of parts: how many of them, in all those sets */
  readonly parts?: { readonly failedCount: number; readonly judgedCount: number };
  /** how far a winding was off, Hz; drift, ppm per hour */
  readonly by?: Middle;
}
/** What the records know of a kind of set, or of parts whatever the set. */
export interface Known {
  readonly setsCount: number;
  /** kinds of set and how many of each, the most first */
  readonly kinds: readonly { readonly kind: string; readonly setsCount: number }[];
  readonly windings: readonly KnownLine[];
  readonly capacitors: readonly KnownLine[];
  readonly tubes: readonly KnownLine[];
  readonly drift?: KnownLine;
}

const often = (hitCount: number, ofCount: number): Often => ({
  hitCount,
  ofCount,
  ...(ofCount < leastSets ? {} : proportionInterval(hitCount, ofCount, confidence)),
});
function middle(values: readonly number[]): Middle | undefined {
  const n = values.length;
  const rank = n < leastSets ? undefined : medianRank(n, confidence);
  if (rank === undefined) return undefined;
  const sorted = [...values].sort((a, b) => a - b);
  return { median: (sorted[(n - 1) >> 1] + sorted[n >> 1]) / 2, low: sorted[rank - 1], high: sorted[n - rank], ofCount: n };
}
const by = <T>(all: readonly T[], key: (of: T) => string): ReadonlyMap<string, readonly T[]> => {
  const out = new Map<string, T[]>();
  for (const x of all) out.set(key(x), [...(out.get(key(x)) ?? []), x]);
  return out;
};
const most = (a: KnownLine, b: KnownLine): number =>
  b.sets.hitCount - a.sets.hitCount || b.sets.ofCount - a.sets.ofCount || (a.what < b.what ? -1 : 1);

/** Parts of a kind fail together in one set more than across sets: so the interval is by sets, and parts are only counted. */
function ofParts(sets: readonly SetSeen[], partsIn: (s: SetSeen) => readonly PartSeen[]): KnownLine[] {
  const all = sets.flatMap((s) => partsIn(s).map((p) => ({ ...p, job: s.job })));
  const lines = [...by(all, (p) => p.kind)].map(([what, parts]): KnownLine => {
    const bySet = [...by(parts, (p) => p.job).values()];
    const failedCount = parts.filter((p) => p.failed).length;
    return {
      what,
      sets: often(bySet.filter((own) => own.some((p) => p.failed)).length, bySet.length),
      parts: { failedCount, judgedCount: parts.length },
    };
  });
  return lines.sort(most);
}
function ofWindings(sets: readonly SetSeen[]): KnownLine[] {
  const all = sets.flatMap((s) => s.windings);
  return [...by(all, (w) => w.which)]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([what, seen]) => {
      const offBy = middle(seen.map((w) => w.offHz));
      return { what, sets: often(seen.filter((w) => w.off).length, seen.length), ...(offBy ? { by: offBy } : {}) };
    });
}
const sameText = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();
const holds = (text: string, words: string): boolean =>
  words
    .toLowerCase()
    .split(/\s+/)
    .every((w) => text.toLowerCase().includes(w));

/** Jobs of one set by its serial count once: the latest of them. */
function apart(sets: readonly SetSeen[]): readonly SetSeen[] {
  const latest = new Map(sets.map((s) => [s.serial === "" ? `job ${s.job}` : `${s.kind.toLowerCase()} ${s.serial}`, s]));
  return [...latest.values()];
}

/**
 * What the records know across jobs.
 *
 * @param seen what each job saw, the earliest first
 * @param wanted words that the kind of set holds, and words that the kind of part holds; all where none are given
 * @returns counts with their intervals where there are enough sets; of windings and drift only where a kind of set is asked for, since sets of unlike kinds have no middle
 * @source proportionInterval and medianRank: see src/numerics/binomial.ts
 */
export function knownOf(seen: readonly SetSeen[], wanted: { readonly set?: string; readonly part?: string }): Known {
  const { set = "", part = "" } = wanted;
  const sets = apart(seen).filter((s) => holds(s.kind, set));
  const named: { readonly kind: string; setsCount: number }[] = [];
  for (const { kind } of sets) {
    const there = named.find((k) => sameText(k.kind, kind));
    if (there) there.setsCount++;
    else named.push({ kind, setsCount: 1 });
  }
  const isOne = set.trim() !== "" || named.length === 1;
  const only = (lines: KnownLine[]): KnownLine[] => lines.filter((l) => holds(l.what, part));
  const drifts = sets.flatMap((s) => (s.driftPpmPerHour === undefined ? [] : [s.driftPpmPerHour]));
  const drift = middle(drifts);
  return {
    setsCount: sets.length,
    kinds: named.sort((a, b) => b.setsCount - a.setsCount || (a.kind < b.kind ? -1 : 1)),
    windings: isOne ? only(ofWindings(sets)) : [],
    capacitors: only(ofParts(sets, (s) => s.capacitors)),
    tubes: only(ofParts(sets, (s) => s.tubes)),
    ...(isOne && part === "" && drifts.length > 0
      ? {
          drift: {
            what: "drift after the first hour",
            sets: { hitCount: drifts.length, ofCount: sets.length },
            ...(drift ? { by: drift } : {}),
          },
        }
      : {}),
  };
}
