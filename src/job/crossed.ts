import { onceFor } from "../numerics/once";
import { addressAt } from "../set/addresses/index";
import type { SetDescription } from "../set/describe";
import { momentInWords } from "../units/day";
import { printQuantity } from "../units/print";
import type { Entry } from "./document";
import { formById } from "./forms";
import { ofKind, placeIn } from "./place-in";
import { addressLabel } from "./places";
import type { JobView } from "./view";

/** What one person said of one place in a job, not knowing of another's. */
export interface Claim {
  /** id of the entry */
  readonly entry: string;
  readonly says: string;
  readonly who: string;
  readonly at: string;
}
/** One place to which two people gave different values, neither having seen the other's. The later one counts until a person settles it. */
export interface Crossed {
  /** names it for whoever settles it: an address, or a card and its field */
  readonly key: string;
  /** the place in words */
  readonly place: string;
  /** oldest first; the last one counts */
  readonly claims: readonly Claim[];
}
/** Stands between a card and its field in a key. */
const fieldMark = " / ";
/**
 * The card and field that a key names; undefined where it names an address.
 * @source house format
 */
export function fieldOf(key: string): { readonly card: string; readonly field: string } | undefined {
  const at = key.indexOf(fieldMark);
  return at < 0 ? undefined : { card: key.slice(0, at), field: key.slice(at + fieldMark.length) };
}

/** What an entry says of each place that it writes to, in words that are the same only where the values are. */
function saidBy(e: Entry): readonly (readonly [key: string, says: string])[] {
  switch (e.kind) {
    case "values":
      return Object.entries(e.values).map(([path, q]) => {
        const declared = addressAt(path);
        return [path, declared?.kind === "quantity" ? printQuantity(q.value, q.spread, declared.dimension) : String(q.value)];
      });
    case "fact":
      return [[e.path, e.value]];
    case "rows":
      return [[e.path, `${e.rows.length} rows: ${JSON.stringify(e.rows)}`]];
    case "form":
      return Object.entries(e.fields).map(([field, text]) => [`${e.form}${fieldMark}${field}`, text === "" ? "nothing" : text]);
    default:
      return [];
  }
}
function placeOf(set: SetDescription, key: string): string {
  const on = fieldOf(key);
  return on ? `${formById(on.card)?.title ?? on.card}: ${on.field}` : addressLabel(set, key);
}

/**
 * Where two people crossed: each wrote to one place of the job what the other had not seen. Both values stay in the record. It is settled by anything that is
 * written there by a person who had both before them, and by taking one back.
 *
 * @param view the job
 * @returns places with their claims, in the order in which they crossed
 * @source house frame
 */
export const crossedIn = onceFor((view: JobView): readonly Crossed[] => {
  const open = new Map<string, readonly (Claim & { readonly index: number })[]>();
  for (const e of ofKind(view.inForce, "values", "fact", "rows", "form")) {
    const index = placeIn(view.document.entries, e.id);
    // who said nothing of what they had seen had all of it
    const seen = e.seen === undefined ? index - 1 : placeIn(view.document.entries, e.seen);
    for (const [key, says] of saidBy(e)) {
      const unseen = (open.get(key) ?? []).filter((c) => c.index > seen && c.who !== e.who);
      open.set(key, [...unseen, { entry: e.id, says, who: e.who, at: e.at, index }]);
    }
  }
  return [...open].flatMap(([key, claims]) =>
    new Set(claims.map((c) => c.says)).size < 2
      ? []
      : [{ key, place: placeOf(view.set, key), claims: claims.map(({ index: _, ...c }) => c) }],
  );
});

/**
 * What crossed, in a sentence each.
 * @source house format
 */
export const sayCrossed = ({ place, claims }: Crossed): string =>
  `Two people wrote to ${place}, neither having seen the other's: ${claims.map((c) => `${c.says} (${c.who}, ${momentInWords(c.at)})`).join(" and ")}. The last one counts until you settle which is right.`;
