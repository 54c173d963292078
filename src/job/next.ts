import { cautionsFor } from "../sheets/answer";
import type { Caution } from "../standards/cautions";
import { orderOf, stepById } from "./steps";
import type { JobView, StepState } from "./view";

export interface NextItem {
  readonly step: string;
  readonly task: string;
  readonly state: StepState;
  readonly makes: "redo" | "check" | "first";
  readonly why: string;
  readonly amount?: string;
  readonly doneWhen: string;
  readonly safety: boolean;
  readonly cautions: readonly Caution[];
  /** place in the order of work */
  readonly place: number;
}

const item = (
  step: string,
  task: string,
  state: StepState,
  makes: NextItem["makes"],
  why: string,
  amount?: string,
  after?: string,
): NextItem => {
  const s = stepById(step);
  return {
    place: Math.max(orderOf(step), after ? orderOf(after) + 0.5 : 0),
    step,
    task,
    state,
    makes,
    why,
    ...(amount ? { amount } : {}),
    doneWhen: s?.doneWhen ?? "",
    safety: s?.safety ?? false,
    cautions: cautionsFor([{ hazards: s?.hazards ?? ["none"] }]),
  };
};

/**
 * What to do next: safety first, then what work has made due again, then the steps not yet done, each in the order that causes least rework.
 *
 * @param view the job as it stands
 * @returns every open item, first things first
 * @source order of steps.ts
 */
export function nextSteps(view: JobView): NextItem[] {
  const open = view.steps.filter((s) => s.state !== "proven");
  const again = open.flatMap((s) => s.due.map((d) => item(s.id, d.task, s.state, d.makes, d.why, d.amount, d.after)));
  const waiting = open
    .filter((s) => s.due.length === 0)
    .map((s) =>
      item(s.id, stepById(s.id)?.title ?? s.id, s.state, "first", s.state === "untouched" ? "not done yet" : "begun, not proved yet"),
    );
  const inOrder = (a: NextItem, b: NextItem): number => a.place - b.place;
  const ranked = (items: readonly NextItem[], safety: boolean): NextItem[] => items.filter((i) => i.safety === safety).sort(inOrder);
  // The final safety test closes the job: it heads the list once work has made it due, and waits its turn before that.
  const waitingSafety = ranked(waiting, true).filter((i) => i.step !== "35");
  const last = waiting.filter((i) => i.step === "35" || i.step === "36");
  return [
    ...ranked(again, true),
    ...waitingSafety,
    ...ranked(again, false),
    ...ranked(waiting, false).filter((i) => !last.includes(i)),
    ...last.sort(inOrder),
  ];
}
