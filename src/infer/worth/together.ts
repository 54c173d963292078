/** Several pieces of work at one opening: what it takes to get there is paid once. */

/** A piece of work by itself. */
export interface Piece {
  readonly id: string;
  /** its own minutes, getting there apart */
  readonly minutes: number;
  /** what it is expected to remove of each uncertainty, each as a part of it */
  readonly removes: readonly { readonly of: string; readonly share: number }[];
}
export interface Batch {
  readonly ids: readonly string[];
  /** of all, getting there with them, min */
  readonly minutes: number;
  /** of all uncertainties together, each as 1 */
  readonly removed: number;
  /** removed an hour */
  readonly anHour: number;
}

/**
 * What several pieces are expected to remove: two that remove parts of one uncertainty leave the product of what each leaves.
 *
 * @param pieces of work
 * @returns sum over the uncertainties, each counted as 1
 * @source readings that err independently of each other; an upper bound where they do not
 */
export function removedTogether(pieces: readonly Piece[]): number {
  const left = new Map<string, number>();
  for (const p of pieces) for (const r of p.removes) left.set(r.of, (left.get(r.of) ?? 1) * (1 - r.share));
  return [...left.values()].reduce((sum, l) => sum + 1 - l, 0);
}
function batchOf(pieces: readonly Piece[], sharedMinutes: number): Batch {
  const minutes = pieces.reduce((sum, p) => sum + p.minutes, sharedMinutes);
  const removed = removedTogether(pieces);
  return { ids: pieces.map((p) => p.id), minutes, removed, anHour: (60 * removed) / Math.max(1, minutes) };
}

/**
 * The pieces that are most worth an hour when they are done at one opening.
 *
 * @param pieces of work that want the set in one state
 * @param sharedMinutes what it takes to get it there, min
 * @param mostMinutes how long there is, min
 * @returns the batch; undefined where none fits
 * @source from each piece on, the next is the one with which the whole is worth most an hour, as long as it rises; against every subset: together.property.test.ts
 */
export function together(pieces: readonly Piece[], sharedMinutes: number, mostMinutes = Number.POSITIVE_INFINITY): Batch | undefined {
  let best: Batch | undefined;
  for (const first of pieces) {
    let taken = [first];
    let here = batchOf(taken, sharedMinutes);
    if (here.minutes > mostMinutes) continue;
    for (;;) {
      const more = pieces
        .filter((p) => !taken.includes(p))
        .map((p) => [...taken, p])
        .map((all) => ({ all, batch: batchOf(all, sharedMinutes) }))
        .filter(({ batch }) => batch.minutes <= mostMinutes && batch.anHour > here.anHour)
        .sort((a, b) => b.batch.anHour - a.batch.anHour)[0];
      if (!more) break;
      taken = more.all;
      here = more.batch;
    }
    if (!best || here.anHour > best.anHour) best = here;
  }
  return best;
}
