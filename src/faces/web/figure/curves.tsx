import { useLayoutEffect, useRef } from "preact/compat";
import type { Answer } from "../../../ask/answered";
import type { Drawing } from "../../figures/drawing";
import { type Drawn, drawnOf } from "../../figures/svg";
import { markupOf, type Path, type Placed } from "../../figures/svg-parts";
import { useFollowing } from "../sheet/following";
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
  /** the same drawing of another answer, to follow a hand; nothing where it has to be rendered another way */
  readonly follows?: (answer: Answer) => Drawing | undefined;
}
/** A drawing at the width that there is; drawn anew, only the parts that have changed are put anew. */
export function Curves({ of, heightAt, bare = false, moving = false, follows }: CurvesProps) {
  const [ref, width] = useWidth();
  const shown = useRef<Drawn | undefined>(undefined);
  const drawnFor = useRef<{ readonly of: Drawing; readonly moving: boolean } | undefined>(undefined);
  const draw = (of: Drawing, moving: boolean): void => {
    if (!ref.current || width === undefined) return;
    const was = shown.current;
    const size = { width, height: heightAt(width), type: typePx, bare };
    const asked = drawnFor.current;
    // what is drawn already stands
    if (was && asked?.of === of && asked.moving === moving && isAsLarge(was.size, size)) return;
    drawnFor.current = { of, moving };
    shown.current = drawnOf(of, size, pageInk, moving && was && isAsLarge(was.size, size) ? was : undefined);
    put(ref.current, shown.current, was);
  };
  useLayoutEffect(() => draw(of, moving));
  useFollowing(
    follows &&
      ((answer) => {
        const now = follows(answer);
        return now && (() => draw(now, true));
      }),
  );
  return <div ref={ref} />;
}

const isAsLarge = (a: Drawn["size"], b: Drawn["size"]): boolean => a.width === b.width && a.height === b.height && a.bare === b.bare;

/** Every text in a drawing was escaped by our own figure writer. */
function put(into: HTMLElement, now: Drawn, was: Drawn | undefined): void {
  const groups = into.querySelectorAll<SVGGElement>("svg > g");
  if (was?.head !== now.head || groups.length !== 6) {
    const parts = [
      now.under,
      now.paths.map(markupOf).join(""),
      now.points,
      now.leads.map(markupOf).join(""),
      now.names.map(nameMarkup).join(""),
      now.across,
    ];
    into.innerHTML = `${now.head}${parts.map((p) => `<g>${p}</g>`).join("")}</svg>`;
    return;
  }
  const [under, paths, points, leads, names] = groups;
  if (now.under !== was.under) under.innerHTML = now.under;
  putPaths(paths, now.paths, was.paths);
  if (now.points !== was.points) points.innerHTML = now.points;
  putPaths(leads, now.leads, was.leads);
  putNames(names, now.names, was.names);
}
/** Lines that look alike are led another way; else all of them are put anew. */
function putPaths(into: SVGGElement, now: readonly Path[], was: readonly Path[]): void {
  const areAlike = now.length === was.length && now.every((p, k) => p.look === was[k].look);
  if (!areAlike) into.innerHTML = now.map(markupOf).join("");
  else for (const [k, { d }] of now.entries()) if (d !== was[k].d) into.children[k].setAttribute("d", d);
}
const shift = ({ x, y }: Placed): string => `translate(${x.toFixed(1)} ${y.toFixed(1)})`;
const nameMarkup = (n: Placed): string => `<g transform="${shift(n)}">${n.at(0, 0)}</g>`;
/** Names in the same words are moved, not written anew. */
function putNames(into: SVGGElement, now: readonly Placed[], was: readonly Placed[]): void {
  const areAlike = now.length === was.length && now.every((n, k) => n.at(0, 0) === was[k].at(0, 0));
  if (!areAlike) into.innerHTML = now.map(nameMarkup).join("");
  else for (const [k, n] of now.entries()) if (shift(n) !== shift(was[k])) into.children[k].setAttribute("transform", shift(n));
}
