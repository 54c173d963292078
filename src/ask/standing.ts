import type { Bench } from "../set/bench";
import type { AnySheet } from "./contract";
import { resolveInputs, unreadOf } from "./resolve";

/** How a question stands with a set before it is asked: it can be answered, it would be an example, or it lacks something. */
export interface Standing {
  readonly can: "answer" | "example" | "lacks";
  /** what is still to be read, by what it means; empty where it can be answered */
  readonly lacks: readonly string[];
}

/**
 * Whether a question can be answered about this set, without answering it.
 *
 * @param question its declaration
 * @param bench the set, at what the question is about
 * @returns how it stands, and what is lacking
 * @source house frame
 */
export function standingOf(question: Pick<AnySheet, "id" | "inputs" | "aliases" | "observed">, bench: Bench): Standing {
  const r = resolveInputs(question, bench);
  if (!r.ok) return { can: "lacks", lacks: r.issues.map((i) => `${question.inputs[i.path]?.meaning ?? i.path}: ${i.expected}`) };
  if (r.value.missing.length > 0) return { can: "lacks", lacks: r.value.missing.map((m) => m.meaning) };
  const unread = unreadOf(question, r.value);
  return { can: unread.length > 0 ? "example" : "answer", lacks: unread.map((n) => question.inputs[n].meaning) };
}
