import { useCallback, useEffect, useRef, useState } from "preact/compat";

/** Whoever shows the same kept value follows each change of it. */
const followers = new Map<string, Set<(v: unknown) => void>>();

/** What is kept under a name; the first value where nothing is. */
export function readKept<T>(name: string, initial: T): T {
  try {
    const text = localStorage.getItem(name);
    return text === null ? initial : (JSON.parse(text) as T);
  } catch {
    return initial;
  }
}

/** Keeps a value under a name, and shows it to all that follow it. */
export function putKept<T>(name: string, value: T, initial: T): void {
  try {
    if (JSON.stringify(value) === JSON.stringify(initial)) localStorage.removeItem(name);
    else localStorage.setItem(name, JSON.stringify(value));
  } catch {
    // a browser that keeps nothing loses nothing that it promised
  }
  for (const follow of followers.get(name) ?? []) follow(value);
}

/** State that a reload or a lost server does not lose: what is being typed, and how the page is set. Kept in this browser only. */
export function useKept<T>(key: string, initial: T): readonly [T, (v: T) => void] {
  const name = `fettle:${key}`;
  const first = useRef(initial);
  const [value, setValue] = useState<T>(() => readKept(name, initial));
  const shown = useRef(name);
  useEffect(() => {
    // another name holds another value
    if (shown.current !== name) setValue(readKept(name, first.current));
    shown.current = name;
    const follow = (v: unknown): void => setValue(v as T);
    const own = followers.get(name) ?? new Set();
    followers.set(name, own.add(follow));
    return () => void own.delete(follow);
  }, [name]);
  const set = useCallback(
    (v: T) => {
      setValue(v);
      putKept(name, v, first.current);
    },
    [name],
  );
  return [value, set];
}
