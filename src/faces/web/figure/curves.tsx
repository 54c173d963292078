import { useLayoutEffect, useRef } from "preact/compat";
import type { Drawing } from "../../figures/drawing";
import { type Drawn, drawnOf, markupOf } from "../../figures/svg";
import { pageInk } from "./ink";
import { useWidth } from "./use-width";

/** Height of the letters in every picture on the page, px at the width that it is drawn for. */
const typePx = 16;

interface CurvesProps {
  readonly of: Drawing;
  /** its height in px at a width */
  readonly heightAt: (width: number) => number;
  /** without the words at the axes: a caption tells them */
  readonly bare?: boolean;
  /** while a hand moves what is drawn: names stay where they are as long as they can */
  readonly moving?: boolean;
}
/** A drawing at the width that there is; drawn anew, only the parts that have changed are put anew. */
export function Curves({ of, heightAt, bare = false, moving = false }: CurvesProps) {
  const [ref, width] = useWidth();
  const shown = useRef<Drawn | undefined>(undefined);
  useLayoutEffect(() => {
    if (!ref.current || width === undefined) return;
    const was = shown.current;
    const size = { width, height: heightAt(width), type: typePx, bare };
    const stood = moving && was?.size.width === size.width && was.size.height === size.height ? was.names : undefined;
    shown.current = drawnOf(of, size, pageInk, stood);
    put(ref.current, shown.current, was);
  });
  return <div ref={ref} />;
}

/** Every text in a drawing was escaped by our own figure writer. */
function put(into: HTMLElement, now: Drawn, was: Drawn | undefined): void {
  const [under, paths, ...over] = into.querySelectorAll<SVGGElement>("svg > g");
  if (was?.head !== now.head || over.length !== now.over.length) {
    const parts = [now.under, now.paths.map(markupOf).join(""), ...now.over];
    into.innerHTML = `${now.head}${parts.map((p) => `<g>${p}</g>`).join("")}</svg>`;
    return;
  }
  if (now.under !== was.under) under.innerHTML = now.under;
  // lines that look alike are led another way; everything else is put anew
  const areAlike = now.paths.length === was.paths.length && now.paths.every((p, k) => p.look === was.paths[k].look);
  if (!areAlike) paths.innerHTML = now.paths.map(markupOf).join("");
  else for (const [k, { d }] of now.paths.entries()) if (d !== was.paths[k].d) paths.children[k].setAttribute("d", d);
  for (const [k, part] of now.over.entries()) if (part !== was.over[k]) over[k].innerHTML = part;
}
