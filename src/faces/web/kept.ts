import { useEffect, useState } from "react";

/** State that a reload or a lost server does not lose: what is being typed, and how the page is set. Kept in this browser only. */
export function useKept<T>(key: string, initial: T): readonly [T, (v: T) => void] {
  const name = `fettle:${key}`;
  const read = (): T => {
    try {
      const text = localStorage.getItem(name);
      return text === null ? initial : (JSON.parse(text) as T);
    } catch {
      return initial;
    }
  };
  const [value, setValue] = useState<T>(read);
  useEffect(() => {
    try {
      if (JSON.stringify(value) === JSON.stringify(initial)) localStorage.removeItem(name);
      else localStorage.setItem(name, JSON.stringify(value));
    } catch {
      // a browser that keeps nothing loses nothing that it promised
    }
  });
  return [value, setValue];
}
