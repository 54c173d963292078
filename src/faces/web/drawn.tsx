import { memo, useLayoutEffect, useRef, useState } from "preact/compat";
import type { Picture } from "../../ask/drawn/pictures";
import { pictureSvg, pictureWords } from "../figures/picture";
import { pageInk } from "./figure/ink";

/** Root size that 16 px of a picture belong to: larger type draws the picture for a narrower page, and larger. */
const usualRootPx = 18;
const widestPx = 900;

/** The spot where the hands go, drawn for the width that there is, and told in words; drawn anew only where it shows something else, and while a hand moves it when the hand rests. */
export const Drawn = memo(DrawnNow, (a, b) => b.moving === true || JSON.stringify(a.of) === JSON.stringify(b.of));

interface DrawnProps {
  readonly of: Picture;
  /** while a hand moves what it shows */
  readonly moving?: boolean;
}
function DrawnNow({ of }: DrawnProps) {
  const frame = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState<number>();
  // before anything is seen: a drawing isn't laid out for a width that it hasn't got
  useLayoutEffect(() => {
    const own = frame.current;
    if (!own) return;
    const measure = () => {
      const scale = Math.max(1, Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / usualRootPx);
      setWidth(Math.round(Math.min(widestPx, own.clientWidth || 640) / scale));
    };
    measure();
    const seen = new ResizeObserver(measure);
    seen.observe(own);
    return () => seen.disconnect();
  }, []);
  return (
    <figure className={of.example ? "plot drawn example" : "plot drawn"}>
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by our own figure writer, every text escaped */}
      <div ref={frame} dangerouslySetInnerHTML={{ __html: width === undefined ? "" : pictureSvg(of, width, pageInk).svg }} />
      <figcaption>
        {of.example ? "EXAMPLE, not this set. " : ""}
        {of.title}
      </figcaption>
      <details>
        <summary>This drawing in words</summary>
        <ul>
          {pictureWords(of).map((w) => (
            <li key={w}>{w}</li>
          ))}
        </ul>
      </details>
    </figure>
  );
}
