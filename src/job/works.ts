import { answer } from "../ask/answer";
import type { Answer, Ask } from "../ask/answered";
import type { HeededFinding } from "../ask/findings";
import { sayFigure } from "../ask/say";
import { sheetById } from "../sheets/index";
import { bad, good, type Read } from "../units/issue";
import { idsOf, oneOf } from "../units/nearest";
import type { AnswerRecord, Due, Entry } from "./document";
import { dueBy, dueOfDanger, joiningDanger } from "./joining";
import { edgesOf, workKindById, workKinds } from "./ripple";
import { benchOf, type JobView } from "./view";

/** Everything that a clock and a dice would be asked for: given, so that the core has neither. */
export interface Stamp {
  readonly at: string;
  readonly who: string;
  readonly newId: () => string;
}

/** A piece of work as it is told. */
export interface WorkDone {
  readonly work: string;
  readonly subject?: string;
  readonly note?: string;
}
export interface WorkPlan {
  readonly entries: readonly Entry[];
  readonly due: readonly Due[];
  readonly answers: readonly Answer[];
  /** set where the work joins something to a chassis that is live or not stated: to be said first */
  readonly danger?: HeededFinding;
}

/** An answer as it is kept beside the work that rests on it: enough to have it again, and what it said. */
export const recordOf = (a: Answer): AnswerRecord => ({
  sheet: a.sheet,
  version: a.version,
  seed: a.seed,
  draws: a.draws,
  headline: a.headline,
  results: Object.fromEntries(Object.entries(a.results).map(([n, f]) => [n, sayFigure(f)])),
});

/**
 * What recording a piece of work will do: which steps it makes due again, why, and by how much where a sheet can say. Nothing is stored here.
 *
 * @param view the job as it stands
 * @param done id of the kind of work, path of what was worked on, such as `fittings.qm`, and the person's words
 * @param stamp time, person, ids
 * @param ask seed and draws of the answers
 * @returns the entries to append, the steps made due, the answers they rest on
 * @source table in ripple.ts
 */
export function planWork(view: JobView, done: WorkDone, stamp: Stamp, ask: Ask = {}): Read<WorkPlan> {
  const { work, subject = "", note = "" } = done;
  if (!workKindById(work)) return bad("work", "unknown-work", work, oneOf(work, idsOf(workKinds)));
  const answers = new Map<string, Answer>();
  const due: Due[] = [];
  for (const e of edgesOf(work)) {
    let amount: string | undefined;
    if (e.sheet && e.result) {
      const a = answerFor(view, e.sheet, subject, ask, answers);
      if (!a.ok) return a;
      const figure = a.value?.results[e.result];
      if (figure) amount = `${figure.meaning}: ${sayFigure(figure)}`;
    }
    due.push({ ...dueBy(view, e, subject), ...(amount ? { amount } : {}) });
  }
  const danger = joiningDanger(view, work);
  if (danger) due.unshift(dueOfDanger);
  const entry: Entry = {
    id: stamp.newId(),
    at: stamp.at,
    who: stamp.who,
    kind: "work",
    work,
    subject,
    note,
    makes: due,
    rests: [...answers.values()].map(recordOf),
  };
  return good({ entries: [entry], due, answers: [...answers.values()], ...(danger ? { danger } : {}) });
}
function answerFor(view: JobView, sheet: string, subject: string, ask: Ask, known: Map<string, Answer>): Read<Answer | undefined> {
  const had = known.get(sheet);
  if (had) return good(had);
  const s = sheetById(sheet);
  const at = subject.startsWith("fittings.") ? subject : view.set.fittings[0] ? `fittings.${view.set.fittings[0].id}` : "";
  if (!s) return good(undefined);
  const a = answer(s, benchOf(view, at), ask);
  if (a.ok) known.set(sheet, a.value);
  return a;
}
