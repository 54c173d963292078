import type { SetDescription } from "../set/describe";
import { questionById } from "../sheets/asked";
import type { Question } from "../sheets/question";

/**
 * The question that explains what is read at a place of a set, and the subject that it is asked about.
 *
 * @param set the set
 * @param place path of the set
 * @returns the question; undefined where none explains readings there
 */
export function explains(set: SetDescription, place: string): { readonly sheet: Question; readonly at: string } | undefined {
  const [list, id] = place.split(".");
  const stage = list === "stages" ? set.stages.find((s) => s.id === id) : undefined;
  const by = (name: string, at = ""): { readonly sheet: Question; readonly at: string } | undefined => {
    const sheet = questionById(name);
    return sheet && { sheet, at };
  };
  const suspects = questionById("suspects");
  if (stage && suspects?.stageKinds?.includes(stage.kind)) return { sheet: suspects, at: place };
  if (stage?.kind === "antenna") return by("safety");
  if (stage) return stage.kind === "can" || stage.kind === "filter" ? by("if-response") : undefined;
  if (place === "supplies") return by("b-plus");
  if (place === "line") return by("safety");
  if (place === "strip") return by("if-response");
  return list === "bands" ? by("tracking", place) : undefined;
}
