import type { Found } from "../ask/contract";
import { questions } from "./asked";
import type { Question } from "./question";

/** A question with where it is found. */
export interface Findable extends Found {
  readonly question: Question;
}
export const findable: readonly Findable[] = questions.map((question) => ({ question, ...question.found }));

const plain = (s: string): string =>
  s
    .toLowerCase()
    .replace(/[’']/g, "")
    .replace(/[^\p{L}\p{N}+]+/gu, " ");
/** Bench endings that mean the same: drifts, drifting, drifted. */
const stem = (w: string): string => w.replace(/(?:ing|ed|es|s)$/, (e) => (w.length - e.length >= 3 ? "" : e));
const dull = new Set(["the", "a", "is", "it", "my", "on", "of", "to", "no", "and", "in", "at", "i"]);

/**
 * Questions that words of the bench are about, best first; all of them where nothing is said.
 *
 * @param said what a person types, such as `low B+` or `drifts`
 * @returns those in which a word is found, by how many of the words and how closely
 * @source house frame
 */
export function findQuestions(said: string): readonly Findable[] {
  const all = plain(said).split(" ").filter(Boolean);
  const wanted = all.filter((w) => !dull.has(w)).map(stem);
  if (wanted.length === 0) return findable;
  const score = (f: Findable): number => {
    const own = plain(`${f.words} ${f.question.title}`);
    const words = own.split(" ").map(stem);
    const more = plain(
      `${f.question.question} ${Object.values(f.question.results)
        .map((r) => r.meaning)
        .join(" ")}`,
    )
      .split(" ")
      .map(stem);
    const hits = wanted.map((w) =>
      words.includes(w)
        ? 3
        : words.some((x) => w.length > 2 && x.startsWith(w))
          ? 2
          : more.some((x) => x === w || (w.length > 3 && x.startsWith(w)))
            ? 1
            : 0,
    );
    return hits.reduce<number>((a, b) => a + b, 0) + (wanted.length > 1 && own.includes(all.join(" ")) ? 4 : 0);
  };
  return findable
    .map((f) => ({ f, points: score(f) }))
    .filter((x) => x.points > 0)
    .sort((a, b) => b.points - a.points)
    .map((x) => x.f);
}
