import { type RefObject, useLayoutEffect, useRef } from "preact/compat";
import { printExact, printShort } from "../../../units/print";
import { type Knobbed, shown, triedAt } from "./knobbed";
import { alongAt, knobPx, type Scale, stopAlong, stopOf, stops, valueAt } from "./scale";
import type { Hand } from "./use-what-if";

/** What a slider is moved to: a text to try, or nothing where it stands on the record's own mark. */
const textAt = (scale: Scale, stop: number, mark: number, dimension: Knobbed["dimension"]): string | undefined =>
  stop === mark ? undefined : printExact(valueAt(scale, stop), dimension);

/** Puts a slider where a value that is tried lies, and what it says of it. */
export function putSlider(range: HTMLInputElement, scale: Scale, value: number, dimension: Knobbed["dimension"]): void {
  range.value = String(stopOf(scale, value));
  range.setAttribute("aria-valuetext", printShort(value, dimension));
}

interface SliderProps {
  readonly q: Knobbed;
  /** the same as it is on record */
  readonly record: Knobbed | undefined;
  readonly scale: Scale;
  /** the value on record, SI */
  readonly base: number;
  readonly tried: string | undefined;
  readonly put: (path: string, v: string | undefined) => void;
  readonly hand: Hand;
  readonly range: RefObject<HTMLInputElement | null>;
}
interface Pull {
  readonly left: number;
  readonly width: number;
  /** from the pointer to the middle of the knob, px: a knob that is pressed off its middle doesn't jump */
  readonly offset: number;
  readonly began: string | undefined;
  stop: number;
}
/**
 * A pointer's own way of turning. The browser would draw its knob in one frame and the answer in the next: on a phone that is twice the work for one move. Here the knob
 * comes with the answer. A finger that turns out to scroll the page leaves everything as it was.
 */
function usePull({ q, scale, tried, hand, range }: SliderProps, mark: number) {
  const pull = useRef<Pull | undefined>(undefined);
  const to = (clientX: number): void => {
    const now = pull.current;
    if (!now) return;
    const stop = stopAlong(clientX - now.offset - now.left, now.width);
    if (stop === now.stop) return;
    now.stop = stop;
    hand.turns(q.path, textAt(scale, stop, mark, q.dimension));
  };
  const ends = (): void => {
    pull.current = undefined;
    hand.rests();
  };
  return {
    onMouseDown: (e: React.MouseEvent<HTMLElement>) => e.preventDefault(),
    onPointerDown: (e: React.PointerEvent<HTMLElement>) => {
      const slider = range.current;
      if (!slider || pull.current || !e.isPrimary || e.button !== 0) return;
      const { left, width } = slider.getBoundingClientRect();
      const stop = Number(slider.value);
      const away = e.clientX - left - alongAt(stop, width);
      pull.current = { left, width, offset: Math.abs(away) <= knobPx / 2 ? away : 0, began: tried, stop };
      slider.focus({ preventScroll: true });
      e.currentTarget.setPointerCapture(e.pointerId);
      hand.takes();
      to(e.clientX);
    },
    onPointerMove: (e: React.PointerEvent<HTMLElement>) => to(e.clientX),
    onPointerUp: () => pull.current && ends(),
    // whatever takes the pointer away: nothing is held then
    onLostPointerCapture: () => pull.current && ends(),
    onPointerCancel: () => {
      const now = pull.current;
      if (!now) return;
      hand.turns(q.path, now.began);
      ends();
    },
  };
}

/** A slider with its ends, a mark where the record stands, and the way back to it. Keys turn it as they turn any slider. */
export function Slider(props: SliderProps) {
  const { q, record, scale, base, tried, put, range } = props;
  const value = triedAt(tried, q, base);
  const mark = stopOf(scale, base);
  const pull = usePull(props, mark);
  // who explores a page by touch, and hears it read, finds the slider under what is pressed: it is its label
  const id = `drag-${q.path.replace(/\W/g, "-")}`;
  // put in one way alone, as an answer that follows a hand puts it
  useLayoutEffect(() => {
    if (range.current) putSlider(range.current, scale, value, q.dimension);
  });
  return (
    <>
      <div className="slide">
        <input
          ref={range}
          id={id}
          type="range"
          min={0}
          max={stops}
          step={1}
          onInput={(e) => put(q.path, textAt(scale, Number(e.currentTarget.value), mark, q.dimension))}
        />
        <label className="hold" htmlFor={id} {...pull}>
          <span className="vh">Drag {q.meaning}</span>
        </label>
        <span className="mark" style={{ left: `calc(${(mark / stops) * 100}% + ${(0.5 - mark / stops) * knobPx}px)` }} aria-hidden="true" />
      </div>
      <div className="ends">
        <span>{printShort(scale.low, q.dimension)}</span>
        {tried === undefined ? (
          <span>▲ on record</span>
        ) : (
          <button type="button" className="asword" onClick={() => put(q.path, undefined)} aria-label={`Back to the record: ${q.meaning}`}>
            ▲ back to {record ? shown(record) : "the record"}
          </button>
        )}
        <span>{printShort(scale.high, q.dimension)}</span>
      </div>
    </>
  );
}
