import { useMemo } from "preact/compat";
import { type Standing as Stands, standingOf } from "../../../ask/standing";
import { pointedAt, subjectFirst } from "../../../job/rollups/pointed";
import { benchOf, type JobView } from "../../../job/view";
import type { Question } from "../../../sheets/question";

/** How questions stand with this set, by their ids; about the subject that each opens on. */
export const useStandings = (view: JobView, asked: readonly Question[]): ReadonlyMap<string, Stands> =>
  useMemo(() => {
    const pointed = pointedAt(view);
    const one = (q: Question): Stands => {
      const at = subjectFirst(view, q, pointed);
      return at === undefined ? { can: "lacks", lacks: ["a place of its kind in this set"] } : standingOf(q, benchOf(view, at));
    };
    return new Map(asked.map((q) => [q.id, one(q)]));
  }, [view, asked]);

const says = { answer: "can be answered", example: "an example: not read yet", lacks: "lacks" } as const;
const shape = { answer: "✓", example: "○", lacks: "△" } as const;
/** Whether a question can be answered, by shape and word, with what it lacks. */
export const Standing = ({ of }: { readonly of: Stands | undefined }) =>
  of === undefined ? null : (
    <span className={`standing ${of.can}`}>
      <span aria-hidden="true">{shape[of.can]}</span> {says[of.can]}
      {of.lacks.length > 0 ? `: ${of.lacks.slice(0, 2).join(", ")}${of.lacks.length > 2 ? ` and ${of.lacks.length - 2} more` : ""}` : ""}
    </span>
  );
