import type { Entry } from "./document";

const indexes = new WeakMap<readonly Entry[], ReadonlyMap<string, number>>();
/**
 * Where an entry stands among others: however many there are, they are gone through once. A list that has been asked is not changed after.
 *
 * @param entries in order
 * @param id of one of them
 * @returns its place, from 0; -1 where it is not among them
 * @source house frame
 */
export function placeIn(entries: readonly Entry[], id: string | undefined): number {
  if (id === undefined) return -1;
  let index = indexes.get(entries);
  if (index === undefined) {
    index = new Map(entries.map((e, i) => [e.id, i]));
    indexes.set(entries, index);
  }
  return index.get(id) ?? -1;
}
/**
 * The entry of an id.
 *
 * @param entries in order; not changed once they were asked
 * @param id of one of them
 * @returns undefined where it is not among them
 * @source house frame
 */
export const entryIn = (entries: readonly Entry[], id: string | undefined): Entry | undefined => entries[placeIn(entries, id)];
