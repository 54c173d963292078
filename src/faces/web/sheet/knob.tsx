import { memo, useLayoutEffect, useMemo, useReducer, useRef, useState } from "preact/compat";
import type { QuantityInput } from "../../../ask/inputs";
import { parseQuantity } from "../../../units/parse";
import { printQuantity } from "../../../units/print";
import { type Follows, useFollowing } from "./following";
import { type Knobbed, quantityOf, shown, triedAt } from "./knobbed";
import { scaleFor } from "./scale";
import { putSlider, Slider } from "./slider";
import type { Hand } from "./use-what-if";

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

/** How long a knob waits for the answer that it comes with: a longer one it goes ahead of. */
export const waitsMs = 60;
interface Held {
  readonly text: string | undefined;
}
/** What a hand has turned an input to. The knob comes with the answer to it, in one drawing. */
function useHeld({ q, hand }: KnobProps, show: (text: string) => void): readonly [Held | undefined, Hand] {
  const held = useRef<Held | undefined>(undefined);
  const [, render] = useReducer((n: number) => n + 1, 0);
  const shows = useRef(show);
  shows.current = show;
  const ahead = useMemo(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const drop = (): void => {
      clearTimeout(timer);
      timer = undefined;
    };
    const goes = (): void => {
      timer = undefined;
      if (held.current?.text !== undefined) shows.current(held.current.text);
    };
    const waits = (): void => {
      timer ??= setTimeout(goes, waitsMs);
    };
    return { drop, waits };
  }, []);
  useLayoutEffect(() => ahead.drop, [ahead]);
  const follows: Follows = (_, tried) => {
    const text = tried[q.path];
    if (typeof text !== "string") return undefined;
    return () => {
      ahead.drop();
      shows.current(text);
      if (held.current?.text !== text) ahead.waits();
    };
  };
  useFollowing(held.current ? follows : undefined);
  const own = useMemo(
    (): Hand => ({
      takes: hand.takes,
      turns: (path, text) => {
        hand.turns(path, text);
        const was = held.current;
        held.current = { text };
        // what has left the record, and has not come back to it, looks the same but for what it says
        if (was?.text !== undefined && text !== undefined) ahead.waits();
        else render(undefined);
      },
      rests: () => {
        ahead.drop();
        held.current = undefined;
        render(undefined);
        hand.rests();
      },
    }),
    [hand, ahead],
  );
  return [held.current, own];
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
  const recorded = quantityOf(props.record);
  const base = recorded?.value;
  const scale = recorded && scaleFor(recorded, props.limits);
  const [held, hand] = useHeld(props, (text) => {
    if (typed.current) typed.current.value = text;
    if (range.current && scale && base !== undefined) putSlider(range.current, scale, triedAt(text, q, base), q.dimension);
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
      {scale && base !== undefined && <Slider {...props} scale={scale} base={base} tried={tried} hand={hand} range={range} />}
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
