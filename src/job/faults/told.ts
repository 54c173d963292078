import { actSaid } from "../say-entry";
import type { Fault } from "./faults";

/**
 * What a fault showed: the words it was noticed in, then what its readings say now, once each.
 *
 * @param f the fault
 * @returns one or two sentences without their full stop
 * @source house frame
 */
export function shownBy(f: Pick<Fault, "words" | "signs">): readonly string[] {
  const more = f.signs.map((s) => s.says).filter((s) => !f.words.includes(s));
  return [f.words, more.join("; ")].filter((t) => t.trim() !== "");
}
/**
 * An act in the life of a fault, with every word that was said at it and is not told of the fault already.
 *
 * @param f the fault
 * @param act one of its acts
 * @returns such as `cause found: screen resistor high`
 * @source house frame
 */
export const actTold = (f: Pick<Fault, "words">, act: Fault["acts"][number]): string =>
  [actSaid[act.does], act.cause ?? "", act.words === f.words ? "" : act.words].filter((t) => t.trim() !== "").join(": ");
