import { resolveInputs, unreadOf } from "../../ask/resolve";
import type { Question } from "../../sheets/question";
import { benchOf, type JobView } from "../view";

/**
 * Inputs of a question at their best, where everything that it observes was read.
 *
 * @param view the job as it stands
 * @param question its declaration
 * @param at path of its subject
 * @returns the inputs; undefined where something lacks
 * @source house frame
 */
export function readOf<T>(view: JobView, question: Pick<Question, "id" | "inputs" | "aliases" | "observed">, at: string): T | undefined {
  const inputs = resolveInputs(question, benchOf(view, at));
  return inputs.ok && inputs.value.missing.length === 0 && unreadOf(question, inputs.value).length === 0
    ? (inputs.value.plain as T)
    : undefined;
}
