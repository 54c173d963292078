import { isSafeToJoin } from "../sheets/chassis";
import type { Hazard } from "../sheets/contract";
import { cautionsFor } from "../sheets/say";
import type { Caution } from "../standards/cautions";
import type { Issue } from "../units/issue";
import { orderOf, stepById } from "./steps";
import { chassisNow, type DueNow, type JobView, type StepState } from "./view";

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

const withLine = (i: NextItem, hazards: readonly Hazard[]): NextItem => ({
  ...i,
  cautions: cautionsFor([{ hazards: [...hazards, "line", "live-chassis"] as never }]),
});

/** On a chassis that is live or not stated every step at the set meets the line; on one that is isolated and proved so, none warns of it. */
function withChassis(view: JobView, i: NextItem): NextItem {
  const hazards = stepById(i.step)?.hazards ?? (["none"] as const);
  if (view.set.chassis.state === "live" && i.step === "03")
    return {
      ...withLine(i, hazards),
      doneWhen:
        "line isolation transformer recorded and the chassis proved dead both ways of the plug, cord and fuse decided, no metal of the chassis within reach; never earthed; local code prevails",
    };
  if (!isSafeToJoin(chassisNow(view.set))) return paper.includes(i.step) ? i : withLine(i, hazards);
  const proved = view.steps.find((s) => s.id === "03")?.state === "proven";
  if (view.set.chassis.state !== "isolated" || !proved) return i;
  return { ...i, cautions: i.cautions.filter((c) => c.hazard !== "live-chassis") };
}
/** Steps that are done at a desk. */
const paper: readonly string[] = ["01", "36"];

/** When an amount was worked out, and whether a value of its place or of the strip was recorded since. */
function workedOut(view: JobView, d: DueNow): string {
  const from = view.inForce.findIndex((e) => e.id === d.because);
  const work = view.inForce[from];
  const places = work?.kind === "work" ? [work.subject, "strip"] : [];
  const since = view.inForce
    .slice(from + 1)
    .filter((e) => e.id !== d.because && e.kind === "values" && e.at > d.at)
    .some((e) => e.kind === "values" && Object.keys(e.values).some((p) => places.some((s) => p.startsWith(`${s}.`))));
  return since
    ? `as worked out on ${d.at.slice(0, 10)}; values of it were recorded since, so ask its sheet anew`
    : `as worked out on ${d.at.slice(0, 10)}`;
}

/**
 * What to do next: safety first, then what work has made due again, then the steps not yet done, each in the order that causes least rework.
 *
 * @param view the job as it stands
 * @returns every open item, first things first
 * @source order of steps.ts
 */
export function nextSteps(view: JobView): NextItem[] {
  const open = view.steps.filter((s) => s.state !== "proven");
  const again = open.flatMap((s) =>
    s.due.map((d) => item(s.id, d.task, s.state, d.makes, d.why, d.amount && `${d.amount} (${workedOut(view, d)})`, d.after)),
  );
  // work at the open set that comes after a test of the closed one undoes it
  const opens = again.some((i) => !i.safety);
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
  // Among the safety steps their own order holds: the final test never stands before inspection and isolation.
  const safety = [...ranked(again, true), ...waitingSafety].sort(inOrder);
  const closing = (i: NextItem): NextItem =>
    i.step === "35" && opens ? { ...i, why: `${i.why}; the work below opens the set again, so it is due once more at the very end` } : i;
  return [
    ...safety.map(closing),
    ...ranked(again, false),
    ...ranked(waiting, false).filter((i) => !last.includes(i)),
    ...last.sort(inOrder),
  ].map((i) => withChassis(view, i));
}

const needs: Readonly<Record<string, readonly string[]>> = { "08": ["02", "03", "04"], "35": ["02", "03"] };

/**
 * Why a step can't be said to be proved yet: first power waits for inspection, isolation and ohms, the final safety test for isolation and a
 * chassis that is not live.
 *
 * @param view the job as it stands
 * @param step number of the step
 * @returns what stands in the way; nothing where it may be proved
 * @source order of the safety steps
 */
export function proofIssues(view: JobView, step: string): Issue[] {
  const out: Issue[] = (needs[step] ?? [])
    .filter((n) => view.steps.find((s) => s.id === n)?.state !== "proven")
    .map((n) => ({
      path: `step ${step}`,
      code: "not-before",
      read: step,
      expected: `step ${n}, ${stepById(n)?.title}, to be proved first`,
    }));
  if (step === "35" && !isSafeToJoin(chassisNow(view.set)))
    out.push({
      path: "step 35",
      code: "chassis-live",
      read: chassisNow(view.set),
      expected: "a chassis recorded as isolated, or a line isolation transformer recorded and the chassis proved dead",
    });
  return out;
}
