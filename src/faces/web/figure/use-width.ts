import { type RefObject, useEffect, useRef, useState } from "preact/compat";

/** The width of an element in whole px, followed as it changes: pictures are drawn for it, so that their type stays its size. */
export function useWidth(first: number): readonly [RefObject<HTMLDivElement | null>, number] {
  const ref = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(first);
  useEffect(() => {
    const el = ref.current;
    if (!el) return undefined;
    const seen = new ResizeObserver(([e]) => {
      const px = Math.floor(e.contentRect.width);
      if (px > 0) setWidth(px);
    });
    seen.observe(el);
    return () => seen.disconnect();
  }, []);
  return [ref, width];
}

/** Whether the window is as a media query says, followed as it changes. */
export function useMedia(query: string): boolean {
  const [holds, setHolds] = useState(() => matchMedia(query).matches);
  useEffect(() => {
    const m = matchMedia(query);
    const on = () => setHolds(m.matches);
    m.addEventListener("change", on);
    return () => m.removeEventListener("change", on);
  }, [query]);
  return holds;
}
