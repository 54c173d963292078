/**
 * Works something out once for each thing that it is about, and keeps it as long as that thing is: what is refused, the draws, findings and tables
 * of one answer share it. What it gives must hang on that thing alone.
 *
 * @param work what is long to do
 * @returns the same, done once for each
 * @source house frame
 */
export function onceFor<K extends object, V>(work: (of: K) => V): (of: K) => V {
  const had = new WeakMap<K, { readonly is: V }>();
  return (of) => {
    const known = had.get(of) ?? { is: work(of) };
    had.set(of, known);
    return known.is;
  };
}
