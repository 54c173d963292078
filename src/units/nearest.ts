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
  return [...new Set(known)].sort((a, b) => score(b) - score(a)).slice(0, count);
}
