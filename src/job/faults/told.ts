import { actSaid } from "../say-entry";
import type { Fault } from "./faults";

/**
 * What a fault showed: the words it was noticed in, then what its readings say now, once each. Once it was mended, or its readings say something else,
 * the first are of then.
 *
 * @param f the fault
 * @returns one or two sentences without their full stop
 * @source house frame
 */
export function shownBy(f: Pick<Fault, "words" | "signs" | "state">): readonly string[] {
  const more = f.signs.map((s) => s.says).filter((s) => !f.words.includes(s));
  const isPast = more.length > 0 || isBehind.includes(f.state);
  const then = isPast && f.words.trim() !== "" ? `when noticed: ${f.words}` : f.words;
  return [then, more.length > 0 ? `read since: ${more.join("; ")}` : ""].filter((t) => t.trim() !== "");
}
const isBehind: readonly Fault["state"][] = ["mended", "proved", "closed"];
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
