import type { Answer, Ask } from "../ask/answered";
import type { JobView } from "../job/view";

/** Answers about one view of a job: a list of parts and a report that are made of the same view work each question out once. */
const answersOf = new WeakMap<JobView, Map<string, Answer>>();
/** Every question about every subject of a large set, and what was tried besides: the one worked out longest ago is let go first. */
const mostAnswers = 300;
const ofView = (view: JobView): Map<string, Answer> => {
  const known = answersOf.get(view) ?? new Map<string, Answer>();
  answersOf.set(view, known);
  return known;
};

/**
 * What a question gives about a view of a job, worked out when it is asked so for the first time.
 *
 * @param view the job
 * @param question sheet, subject, and how it is asked
 * @param work works it out
 * @returns the same answer to the same question
 */
export function onceOf(
  view: JobView,
  question: readonly [sheet: string, subject: string, how: Omit<Ask, "progress">],
  work: () => Answer,
): Answer {
  const known = ofView(view);
  const key = JSON.stringify(question);
  const had = known.get(key);
  if (had) return had;
  const made = work();
  if (known.size >= mostAnswers) known.delete(known.keys().next().value ?? "");
  known.set(key, made);
  return made;
}
/** Whether a question was worked out in full of this view: fewer draws are not asked for then. */
export const isKnown = (view: JobView, sheet: string, subject: string): boolean => ofView(view).has(JSON.stringify([sheet, subject, {}]));
/**
 * Takes answers that were worked out elsewhere of the same document, each in full.
 *
 * @param view the job
 * @param answers of its questions, asked with nothing tried and no other draws than usual
 */
export function takeAnswers(view: JobView, answers: readonly Answer[]): void {
  for (const a of answers) onceOf(view, [a.sheet, a.at, {}], () => a);
}
