import type { DueNow } from "./view";

/** What is due of one step, said once. */
export interface DueOfStep {
  readonly target: string;
  readonly task: string;
  readonly why: string;
  /** by how much, of whatever could say so */
  readonly amounts: readonly string[];
}
/** Over what work will ask for: done before or not, it is to be done after it. */
export const afterThis = "To be done after this:";
const unique = (texts: readonly string[]): string[] => [...new Set(texts)];
/** Tasks of one step as one: the whole step is not named beside a part of it, and parts stand behind one name. */
function asOne(tasks: readonly string[]): string {
  const parts = new Map<string, string[]>();
  for (const task of unique(tasks)) {
    const [, head = task, part] = /^(.+?): (.+)$/.exec(task) ?? [];
    parts.set(head, [...(parts.get(head) ?? []), ...(part === undefined ? [] : [part])]);
  }
  return [...parts].map(([head, own]) => (own.length > 0 ? `${head}: ${own.join(", ")}` : head)).join("; ");
}
/**
 * What is due, a step each: however many works made it so, it is one thing to do.
 *
 * @param due as works left it
 * @returns a line for each step, in the order in which they first became due
 * @source house rule
 */
export const dueBySteps = (due: readonly DueNow[]): readonly DueOfStep[] =>
  unique(due.map((d) => d.target)).map((target) => {
    const own = due.filter((d) => d.target === target);
    return {
      target,
      task: asOne(own.map((d) => d.task)),
      why: unique(own.map((d) => d.why)).join("; "),
      amounts: own.flatMap((d) => d.amount ?? []),
    };
  });
