/**
 * A pure function that remembers its latest results, by a key of what went in: the same in, the same out, only sooner.
 *
 * @param keyOf key of the arguments: all that the result depends on must be in it
 * @param make the function itself
 * @param mostCount how many results are held; the oldest goes first
 * @returns the function, remembering
 * @source house frame
 */
export function remembering<A extends readonly unknown[], T>(
  keyOf: (...of: A) => string,
  make: (...of: A) => T,
  mostCount: number,
): (...of: A) => T {
  const known = new Map<string, { readonly made: T }>();
  return (...of) => {
    const key = keyOf(...of);
    const had = known.get(key);
    if (had) return had.made;
    const made = make(...of);
    for (const oldest of known.keys()) {
      if (known.size < mostCount) break;
      known.delete(oldest);
    }
    known.set(key, { made });
    return made;
  };
}
