import { faultsOf, isOpenFault } from "../faults/faults";
import { isUnmended } from "../faults/in-short";
import { inOrder, openSteps } from "../open-steps";
import { subjectsIn } from "../subjects";
import type { JobView } from "../view";
import { routeOf } from "./route";

/**
 * Places that the thread of a job points at, foremost first: where something is faulty or out of its chart, where a mend is still to be proved, where the
 * next step is, where work has disturbed something.
 *
 * @param view the job as it stands
 * @returns paths, some of them more than once
 * @source house frame
 */
export function pointedAt(view: JobView): readonly string[] {
  const faults = faultsOf(view).filter(isOpenFault);
  const next = inOrder(openSteps(view)).at(0)?.id;
  const places = routeOf(view);
  return [
    ...[...faults.filter(isUnmended), ...faults.filter((f) => !isUnmended(f))].map((f) => f.place),
    ...places.filter((p) => next !== undefined && p.steps.includes(next)).map((p) => p.path),
    ...places.filter((p) => p.due.length > 0).map((p) => p.path),
  ];
}

/**
 * The subject that a question is about where nobody has said one: the one that the thread points at, else the first.
 *
 * @param view the job as it stands
 * @param sheet the question
 * @param pointed places that the thread points at, where they are known already
 * @returns undefined where this set has none
 * @source house frame
 */
export function subjectFirst(view: JobView, sheet: Parameters<typeof subjectsIn>[1], pointed?: readonly string[]): string | undefined {
  const known = subjectsIn(view, sheet);
  if (known.length < 2) return known[0];
  // a tube is pointed at with its stage, a set-point of a band with the band
  const placeOf = (at: string): string => {
    const tube = view.set.tubes.find((t) => `tubes.${t.socket}` === at);
    return tube ? `stages.${tube.stage}` : at.replace(/:.*$/, "");
  };
  // asked only where there is a choice: it rests on every reading of the job
  for (const place of pointed ?? pointedAt(view)) {
    const at = known.find((k) => placeOf(k) === place);
    if (at !== undefined) return at;
  }
  return known[0];
}
