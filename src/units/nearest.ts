/**
 * Names that a person may have meant, nearest first.
 *
 * @param name as written
 * @param known the names that there are
 * @param count how many at most
 * @returns those that share most pairs of letters with it
 * @source house rule
 */
export function closest(name: string, known: readonly string[], count = 2): string[] {
  const pairs = (s: string) => new Set(Array.from({ length: Math.max(0, s.length - 1) }, (_, i) => s.toLowerCase().slice(i, i + 2)));
  const mine = pairs(name);
  const score = (k: string) => [...pairs(k)].filter((p) => mine.has(p)).length / Math.max(1, Math.sqrt(k.length));
  const scored = [...new Set(known)].map((k) => ({ k, score: score(k) }));
  return scored
    .sort((a, b) => b.score - a.score)
    .slice(0, count)
    .map((s) => s.k);
}

/** So many names are told whole: more of them are looked up in a list. */
const fewNames = 10;
/**
 * What was expected in place of a name that nobody knows: all names while they are few, else the nearest of them.
 *
 * @param name as written
 * @param known the names that there are
 * @param what they are, in the plural, where that is not plain from what was read
 * @returns in words, to follow "expected"
 * @source house rule
 */
export const oneOf = (name: string, known: readonly string[], what = ""): string =>
  known.length <= fewNames
    ? `one of ${what ? `the ${what} ` : ""}${known.join(", ")}`
    : `one of ${known.length}${what ? ` ${what}` : ""}, such as ${closest(name, known, 3).join(" or ")}`;

/** Ids of what is declared in a list. Source: definition. */
export const idsOf = (all: readonly { readonly id: string }[]): readonly string[] => all.map((x) => x.id);
