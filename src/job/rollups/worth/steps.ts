import { middle } from "../../../standards/minutes";
import { waitsOfSteps } from "../../open-steps";
import { foundationsOf, type Step, stepById } from "../../steps";
import type { JobView, StepView } from "../../view";
import type { Choice } from "./choice";
import { type Taking, takesFor } from "./costs";
import type { Known } from "./figures";

/** A quick check of what was proved before takes so much of the whole. Common practice, no source. */
const partOfCheck = 0.3;
/**
 * What is left of a step: all of it, or a check where work has only made that due.
 *
 * @param view the job
 * @param s the step as it stands
 * @returns min
 * @source the job's own times; else common practice, no source
 */
export function leftOf(view: JobView, s: StepView): Taking {
  const all = takesFor(view, "step", s.id);
  const check = s.due.length > 0 && s.due.every((d) => d.makes === "check");
  return check ? { ...all, hands: [partOfCheck * all.hands[0], all.hands[0]], itself: [0, 0] } : all;
}
/** Whether a step waits for another, through those between. */
const waitsFor = (waits: ReadonlyMap<string, ReadonlySet<string>>, id: string, on: string): boolean =>
  [...(waits.get(id) ?? [])].some((w) => w === on || waitsFor(waits, w, on));
/** Whether a step is done on the warm set: it is switched on and rests on the warm-up. */
const isWarm = (s: Step): boolean => s.state !== "desk" && s.state !== "open-dead" && foundationsOf(s.id).has("17");

/**
 * Steps that are free in the order that safety and dependency fix, those of safety apart: what each opens, and the figures that it measures.
 *
 * @param view the job
 * @param known figures of the hand-over as they are known now
 * @returns choices
 * @source graph of steps.ts; shares by infer/worth
 */
export function stepChoices(view: JobView, known: readonly Known[]): readonly Choice[] {
  const waits = waitsOfSteps(view);
  return [...waits.entries()].flatMap(([id, on]): Choice[] => {
    const s = stepById(id);
    const state = view.steps.find((x) => x.id === id);
    if (!s || !state || on.size > 0 || s.safety) return [];
    const takes = leftOf(view, state);
    const after = view.steps.filter((x) => waitsFor(waits, x.id, id));
    const hours = after.reduce((sum, x) => sum + middle(leftOf(view, x).hands), 0) / 60;
    const measures = known.filter((k) => k.step === id);
    const due = state.due.map((d) => d.why);
    const reasons = [
      ...measures.slice(0, 1).map((k) => k.says),
      ...(due.length > 0 ? [due[0]] : []),
      ...(after.length > 0
        ? [`${after.length} ${after.length === 1 ? "step waits" : "steps wait"} for it, about ${Math.max(1, Math.round(hours))} h of work`]
        : []),
    ];
    return [
      {
        id: `step:${id}`,
        kind: "step",
        does: takes.what,
        place: "",
        why: reasons.length > 0 ? reasons.slice(0, 2).join("; ") : "it must be done before hand-over",
        removes: measures.map((k) => ({ of: k.of, share: k.share * k.counts })),
        wants: s.state,
        warm: isWarm(s),
        hazards: s.hazards,
        takes,
        about: id,
        with: `next JOB`,
      },
    ];
  });
}
