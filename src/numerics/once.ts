/**
 * Works something out once for each thing that it is about, and keeps it as long as that thing is: what is refused, the draws, findings and tables
 * of one answer share it. What it gives must hang on that thing, and on what the key says, alone.
 *
 * @param work what is long to do
 * @param keyOf key of what else it hangs on
 * @returns the same, done once for each
 * @source house frame
 */
export function onceFor<K extends object, M extends readonly unknown[], V>(
  work: (of: K, ...more: M) => V,
  keyOf: (...more: M) => string | number = () => 0,
): (of: K, ...more: M) => V {
  const had = new WeakMap<K, Map<string | number, { readonly is: V }>>();
  return (of, ...more) => {
    const own = had.get(of) ?? new Map<string | number, { readonly is: V }>();
    had.set(of, own);
    const key = keyOf(...more);
    const known = own.get(key) ?? { is: work(of, ...more) };
    own.set(key, known);
    return known.is;
  };
}
