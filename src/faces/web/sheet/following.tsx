import { createContext, useContext, useLayoutEffect, useRef } from "preact/compat";
import type { Answer } from "../../../ask/answered";
import type { Overrides } from "../../../ask/resolved";

/** How a part of a page would show an answer in what stands already; nothing where it has to be rendered another way. */
export type Follows = (answer: Answer, tried: Overrides) => (() => void) | undefined;
/** Parts of a page that follow a hand by themselves. */
export interface Followers {
  readonly join: (part: { readonly current: Follows }) => () => void;
  /** shows an answer in all parts, or in none where one of them can't: then the page is rendered */
  readonly show: (answer: Answer, tried: Overrides) => boolean;
}
export function followers(): Followers {
  const parts = new Set<{ readonly current: Follows }>();
  return {
    join: (part) => {
      parts.add(part);
      return () => void parts.delete(part);
    },
    show: (answer, tried) => {
      const puts: (() => void)[] = [];
      for (const part of parts) {
        const put = part.current(answer, tried);
        if (!put) return false;
        puts.push(put);
      }
      for (const put of puts) put();
      return puts.length > 0;
    },
  };
}

/** What the parts below follow; nothing where they are rendered each time. */
export const Following = createContext<Followers | undefined>(undefined);
/** Follows a hand for as long as the part stands. */
export function useFollowing(follows: Follows | undefined, own?: Followers): void {
  const among = useContext(Following);
  const to = own ?? among;
  const now = useRef<Follows>(() => undefined);
  if (follows) now.current = follows;
  const joins = follows !== undefined;
  useLayoutEffect(() => (joins ? to?.join(now) : undefined), [to, joins]);
}

interface ToldProps {
  readonly as?: "p" | "span" | "figcaption";
  readonly className?: string;
  readonly live?: "polite";
  /** what it says now */
  readonly now: string;
  /** what it would say of another answer; nothing where it has to be rendered another way */
  readonly says: (answer: Answer) => string | undefined;
}
/** Words that follow a hand. They are put in one way alone, rendered or not, so that what was said last is never what is said no more. */
export function Told({ as: As = "p", className, live, now, says }: ToldProps) {
  const ref = useRef<HTMLParagraphElement>(null);
  const put = (text: string): void => {
    const words = ref.current?.firstChild;
    if (!words) ref.current?.append(text);
    else if (words.nodeValue !== text) words.nodeValue = text;
  };
  useLayoutEffect(() => put(now));
  useFollowing((answer) => {
    const text = says(answer);
    return text === undefined ? undefined : () => put(text);
  });
  return <As ref={ref} className={className} aria-live={live} />;
}
