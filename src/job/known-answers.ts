import type { Answer, Ask } from "../ask/answered";
import { good, type Read } from "../units/issue";
import type { JobView } from "./view";

/** Answers about one view of a job: a list of parts and a report that are made of the same view work each question out once. */
const answersOf = new WeakMap<JobView, Map<string, Answer>>();
/** Every question about every subject of a large set, and what was tried besides: the one worked out longest ago is let go first. */
const mostAnswers = 300;
const ofView = (view: JobView): Map<string, Answer> => {
  const known = answersOf.get(view) ?? new Map<string, Answer>();
  answersOf.set(view, known);
  return known;
};
/** A question about a job: sheet, subject, and how it is asked. */
type Question = readonly [sheet: string, subject: string, how: Omit<Ask, "progress">];
/** An answer with the question that it is to, as it goes from one thread to another. */
export type Known = readonly [question: string, answer: Answer];

/**
 * What a question gives about a view of a job, worked out when it is asked so for the first time.
 *
 * @param view the job
 * @param question sheet, subject, and how it is asked
 * @param work works it out
 * @returns the same answer to the same question, or the issues
 * @source house frame
 */
export function onceOf(view: JobView, question: Question, work: () => Read<Answer>): Read<Answer> {
  const known = ofView(view);
  const key = JSON.stringify(question);
  const had = known.get(key);
  if (had) return good(had);
  const made = work();
  if (!made.ok) return made;
  if (known.size >= mostAnswers) known.delete(known.keys().next().value ?? "");
  known.set(key, made.value);
  return made;
}
/**
 * What a question gave in full about a view of a job, if it was asked so: fewer draws are not asked for then.
 *
 * @param view the job
 * @param sheet the question
 * @param subject what it was asked about
 * @returns the answer; undefined where it was not asked in full
 * @source house frame
 */
export const knownInFull = (view: JobView, sheet: string, subject: string): Answer | undefined =>
  ofView(view).get(JSON.stringify([sheet, subject, {}]));
/**
 * All that was answered of a view of a job.
 *
 * @param view the job
 * @returns answers with their questions
 * @source house frame
 */
export const allKnown = (view: JobView): readonly Known[] => [...ofView(view)];
/**
 * Takes answers that were worked out elsewhere of the same document.
 *
 * @param view the job
 * @param known answers with their questions; what is known here stays
 * @source house frame
 */
export function takeKnown(view: JobView, known: readonly Known[]): void {
  const own = ofView(view);
  for (const [question, answer] of known) if (!own.has(question)) own.set(question, answer);
}
