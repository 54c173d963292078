import { onceFor } from "../numerics/once";
import type { Entry, EntryOf } from "./document";

type Kind = Entry["kind"];
interface Index {
  readonly places: ReadonlyMap<string, number>;
  readonly kinds: ReadonlyMap<Kind, readonly Entry[]>;
  /** those that are part of an act, by the act's id */
  readonly parts: ReadonlyMap<string, readonly Entry[]>;
}
function put<K>(into: Map<K, Entry[]>, key: K, e: Entry): void {
  const own = into.get(key);
  if (own) own.push(e);
  else into.set(key, [e]);
}
/** Entries by id, by kind and by act: however many there are, they are gone through once. A list that has been asked is not changed after. */
const indexOf = onceFor((entries: readonly Entry[]): Index => {
  const places = new Map<string, number>();
  const kinds = new Map<Kind, Entry[]>();
  const parts = new Map<string, Entry[]>();
  entries.forEach((e, at) => {
    places.set(e.id, at);
    put(kinds, e.kind, e);
    if (e.partOf !== undefined) put(parts, e.partOf, e);
  });
  return { places, kinds, parts };
});
/**
 * Where an entry stands among others.
 *
 * @param entries in order
 * @param id of one of them
 * @returns its place, from 0; -1 where it is not among them
 * @source house frame
 */
export const placeIn = (entries: readonly Entry[], id: string | undefined): number =>
  id === undefined ? -1 : (indexOf(entries).places.get(id) ?? -1);
/**
 * The entry of an id.
 *
 * @param entries in order; not changed once they were asked
 * @param id of one of them
 * @returns undefined where it is not among them
 * @source house frame
 */
export const entryIn = (entries: readonly Entry[], id: string | undefined): Entry | undefined => entries[placeIn(entries, id)];

const none: readonly never[] = [];
const inOrder = (entries: readonly Entry[], some: readonly Entry[]): readonly Entry[] =>
  [...some].sort((a, b) => placeIn(entries, a.id) - placeIn(entries, b.id));
/**
 * An act with all that is part of it.
 *
 * @param entries in order; not changed once they were asked
 * @param act id of the entry that is the act
 * @returns those of them, in the same order
 * @source house frame
 */
export function ofAct(entries: readonly Entry[], act: string): readonly Entry[] {
  const itself = entryIn(entries, act);
  return inOrder(entries, [...(itself ? [itself] : []), ...(indexOf(entries).parts.get(act) ?? none)]);
}
const kindsIn = onceFor(
  (entries: readonly Entry[], kinds: readonly Kind[]): readonly Entry[] =>
    inOrder(
      entries,
      kinds.flatMap((k) => indexOf(entries).kinds.get(k) ?? none),
    ),
  (kinds) => kinds.join(" "),
);
/**
 * The entries of some kinds: whoever asks for these does not go through all the others.
 *
 * @param entries in order; not changed once they were asked
 * @param kinds one or more
 * @returns those of them, in the same order
 * @source house frame
 */
export const ofKind = <K extends Kind>(entries: readonly Entry[], ...kinds: readonly K[]): readonly EntryOf<K>[] =>
  (kinds.length === 1 ? (indexOf(entries).kinds.get(kinds[0]) ?? none) : kindsIn(entries, kinds)) as readonly EntryOf<K>[];

/**
 * The writings on one card.
 *
 * @param entries in order; not changed once they were asked
 * @param id of the card
 * @returns those of them, in the same order
 * @source house frame
 */
export const onCard: (entries: readonly Entry[], id: string) => readonly EntryOf<"form">[] = onceFor(
  (entries: readonly Entry[], id: string) => ofKind(entries, "form").filter((e) => e.form === id),
  (id) => id,
);
