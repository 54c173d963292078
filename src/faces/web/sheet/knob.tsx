import { memo, type RefObject, useLayoutEffect, useMemo, useReducer, useRef, useState } from "preact/compat";
import type { Answer } from "../../../ask/answered";
import type { QuantityInput } from "../../../ask/inputs";
import { parseQuantity } from "../../../units/parse";
import { printExact, printKnown, printQuantity, printShort } from "../../../units/print";
import { scaleFor, stopOf, stops, valueAt } from "./scale";
import type { Hand } from "./use-what-if";

export type Knobbed = Answer["quantities"][number] | Answer["absent"][number];
/** What it is, without what is said to explain it. */
export const short = (meaning: string): string => meaning.split(/[;:(]/)[0].trim();
export interface KnobProps {
  readonly q: Knobbed;
  /** the same as it is on record */
  readonly record: Knobbed | undefined;
  readonly limits: Pick<QuantityInput, "min" | "max" | "positive">;
  readonly tried: string | undefined;
  readonly put: (path: string, v: string | undefined) => void;
  readonly hand: Hand;
  /** how much of the uncertainty of the figure on top it accounts for, 0 to 1 */
  readonly share?: number | undefined;
}
const quantityOf = (q: Knobbed | undefined) => (q && "quantity" in q ? q.quantity : undefined);
const shown = (q: Knobbed): string => {
  const here = quantityOf(q);
  return here ? printKnown(here, q.dimension) : "";
};

/** What is read out of a text that is tried, else what is on record. */
const triedAt = (text: string | undefined, { dimension, path }: Knobbed, base: number): number => {
  const read = text === undefined ? undefined : parseQuantity(text, dimension, path);
  return read?.ok ? read.value.value : base;
};
/** A slider with its ends, a mark where the record stands, and the way back to it. */
function Slider({ q, record, limits, tried, put, hand, range }: KnobProps & { readonly range: RefObject<HTMLInputElement | null> }) {
  const base = quantityOf(record);
  const scale = base && scaleFor(base, limits);
  const value = base && triedAt(tried, q, base.value);
  // put in one way alone, as a hand that turns it puts it
  useLayoutEffect(() => {
    if (value !== undefined) range.current?.setAttribute("aria-valuetext", printShort(value, q.dimension));
  });
  if (!scale || value === undefined) return null;
  const mark = stopOf(scale, base.value);
  return (
    <>
      <div className="slide">
        <input
          ref={range}
          type="range"
          aria-label={`Drag ${q.meaning}`}
          min={0}
          max={stops}
          step={1}
          value={stopOf(scale, value)}
          onPointerDown={hand.takes}
          onPointerUp={hand.rests}
          onPointerCancel={hand.rests}
          onChange={(e) => {
            const stop = Number(e.currentTarget.value);
            hand.turns(q.path, stop === mark ? undefined : printExact(valueAt(scale, stop), q.dimension));
          }}
        />
        <span className="mark" style={{ left: `calc(${(mark / stops) * 100}% + ${(0.5 - mark / stops) * 1.6}rem)` }} aria-hidden="true" />
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

/** What a hand has turned an input to: it is ahead of the page, which follows with each answer. Keys turn it without a hand that holds it. */
function useHeld({ hand, put }: KnobProps, follows: (text: string) => void): readonly [Held | undefined, Hand] {
  const held = useRef<Held | undefined>(undefined);
  const [, render] = useReducer((n: number) => n + 1, 0);
  const inHand = useRef(false);
  const shows = useRef(follows);
  shows.current = follows;
  const own = useMemo(
    (): Hand => ({
      takes: () => {
        inHand.current = true;
        hand.takes();
      },
      turns: (path, text) => {
        if (!inHand.current) return put(path, text);
        // it is asked first: the answer is worked out while the knob follows
        hand.turns(path, text);
        const was = held.current;
        held.current = { text };
        // what has left the record, and has not come back to it, looks the same but for what it says
        if (was?.text !== undefined && text !== undefined) shows.current(text);
        else render(undefined);
      },
      rests: () => {
        inHand.current = false;
        held.current = undefined;
        render(undefined);
        hand.rests();
      },
    }),
    [hand, put],
  );
  return [held.current, own];
}
interface Held {
  readonly text: string | undefined;
}

const sameValue = (a: Knobbed | undefined, b: Knobbed | undefined): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);
/** While another input is turned, each answer brings this one anew and alike. */
const sameKnob = (a: KnobProps, b: KnobProps): boolean =>
  a.tried === b.tried && a.share === b.share && a.put === b.put && sameValue(a.q, b.q) && sameValue(a.record, b.record);
/** One input as a knob: its value to type over in any notation, or to drag; how much of the uncertainty it accounts for, as a length. */
export const Knob = memo(KnobNow, sameKnob);
function KnobNow(props: KnobProps) {
  const { q, put, share } = props;
  const range = useRef<HTMLInputElement>(null);
  const typed = useRef<HTMLInputElement>(null);
  const base = quantityOf(props.record)?.value;
  const [held, hand] = useHeld(props, (text) => {
    if (typed.current) typed.current.value = text;
    if (base !== undefined) range.current?.setAttribute("aria-valuetext", printShort(triedAt(text, q, base), q.dimension));
  });
  const tried = held ? held.text : props.tried;
  const setTried = (v: string | undefined): void => put(q.path, v);
  const [typing, setTyping] = useState<string>();
  const here = quantityOf(q);
  const read = tried === undefined ? undefined : parseQuantity(tried, q.dimension, q.path);
  const wrong = read && !read.ok ? read.issues[0] : undefined;
  const id = `in-${q.path.replace(/\W/g, "-")}`;
  const source = here === undefined || here.source === q.howMeasured ? "" : ` ${here.source}.`;
  return (
    <div className={`knob ${here?.origin ?? "absent"}`}>
      <label htmlFor={id}>{short(q.meaning)}</label>
      <input
        ref={typed}
        id={id}
        className="typed"
        value={typing ?? tried ?? shown(q)}
        placeholder={here ? "" : "not read"}
        onFocus={(e) => e.currentTarget.select()}
        onBlur={() => setTyping(undefined)}
        onChange={(e) => {
          setTyping(e.currentTarget.value);
          setTried(e.currentTarget.value.trim() === "" ? undefined : e.currentTarget.value);
        }}
        aria-invalid={wrong !== undefined}
        aria-describedby={`${id}-said`}
        autoComplete="off"
      />
      <Slider {...props} tried={tried} hand={hand} range={range} />
      {share !== undefined && (
        <div className="share">
          <span className="length" style={{ width: `${Math.max(2, share * 60)}%` }} aria-hidden="true" />
          <span>accounts for {Math.round(share * 100)} %</span>
        </div>
      )}
      <details className="whence">
        <summary>
          <span className={`origin ${here?.origin ?? "absent"}`}>{here?.origin ?? "not read"}</span>
        </summary>
        {short(q.meaning) !== q.meaning && <p>{q.meaning}.</p>}
        {here && <p>{printQuantity(here.value, here.spread, q.dimension)}.</p>}
        <p>{`${q.howMeasured}.${source}`}</p>
        <p className="path">{q.path}</p>
      </details>
      <span id={`${id}-said`} className={wrong ? "said wrong" : "said"} role={wrong ? "status" : undefined}>
        {wrong ? `Read “${tried}”. Expected ${wrong.expected}` : ""}
      </span>
    </div>
  );
}
