import { type RefObject, useEffect, useLayoutEffect, useRef, useState } from "preact/compat";

/** The width of an element in whole px, followed as it changes: pictures are drawn for it, so that their type stays its size. Nothing until it stands on the page. */
export function useWidth(): readonly [RefObject<HTMLDivElement | null>, number | undefined] {
  const ref = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState<number>();
  // before anything is seen: nothing is drawn for a width that it hasn't got
  useLayoutEffect(() => {
    const el = ref.current;
    if (!el) return undefined;
    const measured = (px: number): void => {
      if (px > 0) setWidth(Math.floor(px));
    };
    measured(el.clientWidth);
    const seen = new ResizeObserver(([e]) => measured(e.contentRect.width));
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
