import { concerns, orderOf, type Step, stepById, steps } from "./steps";
import type { DueNow, JobView, StepView } from "./view";

/** The due tasks of a step are only records to take again later: then it waits for those steps, and holds nothing else up. */
const isRecord = (due: readonly DueNow[]): boolean => due.length > 0 && due.every((d) => d.after !== undefined);

/** Open steps that a step waits for: what it rests on and what its due tasks name, through steps that are proved or that this set lacks. */
function waitsOf(s: Step, open: ReadonlyMap<string, { readonly due: readonly DueNow[] }>): Set<string> {
  const out = new Set<string>();
  const seen = new Set<string>([s.id]);
  const own = open.get(s.id)?.due ?? [];
  const queue = [...s.rests, ...own.flatMap((d) => (d.after ? [d.after] : []))];
  for (let id = queue.pop(); id !== undefined; id = queue.pop()) {
    if (seen.has(id)) continue;
    seen.add(id);
    const here = open.get(id);
    if (here && !isRecord(here.due)) out.add(id);
    else queue.push(...(stepById(id)?.rests ?? []));
  }
  return out;
}

/**
 * Open steps of this set, by their numbers.
 *
 * @param view the job as it stands
 * @returns in the order of the job; what this set lacks is left out
 * @source graph of steps.ts
 */
export const openSteps = (view: JobView): ReadonlyMap<string, StepView> =>
  new Map(view.steps.filter((s) => s.state !== "proven" && concerns(s.id, view.set)).map((s) => [s.id, s]));
/**
 * What each open step waits for: the open steps that it rests on, through steps that are proved or that this set lacks.
 *
 * @param view the job as it stands
 * @returns by step, in the order of the list; a step that waits for nothing is free
 * @source graph of steps.ts
 */
export function waitsOfSteps(view: JobView): ReadonlyMap<string, ReadonlySet<string>> {
  const open = openSteps(view);
  return new Map(steps.filter((s) => open.has(s.id)).map((s) => [s.id, waitsOf(s, open)]));
}

/**
 * Steps in the order of what they rest on, and among those that are free in the order of the list.
 *
 * @param open open steps, by their numbers
 * @returns each of them once
 * @source graph of steps.ts
 */
export function inOrder(open: ReadonlyMap<string, { readonly due: readonly DueNow[] }>): Step[] {
  const place = (s: Step): number =>
    Math.max(orderOf(s.id), ...(open.get(s.id)?.due ?? []).map((d) => (d.after ? orderOf(d.after) + 0.5 : 0)));
  const left = steps.filter((s) => open.has(s.id)).sort((a, b) => place(a) - place(b));
  const waits = new Map(left.map((s) => [s.id, waitsOf(s, open)]));
  const out: Step[] = [];
  while (left.length > 0) {
    const done = new Set(out.map((s) => s.id));
    const free = left.findIndex((s) => [...(waits.get(s.id) ?? [])].every((w) => done.has(w)));
    out.push(...left.splice(Math.max(0, free), 1));
  }
  return out;
}

/** How many steps of a job's own are proved, how many work has made due again, and of how many. */
export interface StepCounts {
  readonly proved: number;
  readonly due: number;
  readonly all: number;
}
/**
 * Whether work has made a step due again: what nobody has done yet is only to be done.
 *
 * @param s the step as it stands
 * @returns whether it was done, and something since has disturbed it
 * @source house rule, the same for the page, the papers and the list of jobs
 */
export const isDueAgain = (s: StepView): boolean => s.state === "due again";
/**
 * Steps of a job counted; those that its set lacks are none.
 *
 * @param view the job
 * @returns counts
 * @source isDueAgain
 */
export function stepCounts(view: JobView): StepCounts {
  const mine = view.steps.filter((s) => concerns(s.id, view.set));
  return { proved: mine.filter((s) => s.state === "proven").length, due: mine.filter(isDueAgain).length, all: mine.length };
}
