import { carefully, setFigures } from "../ask/care";
import { isSafeToJoin } from "../ask/chassis";
import type { Hazard } from "../ask/findings";
import { questions } from "../sheets/asked";
import { type Caution, isOpen, type State } from "../standards/cautions";
import { dayInWords } from "../units/day";
import type { Issue } from "../units/issue";
import { lowerFirst } from "../units/sentence";
import { stateIssues } from "./accessory-proof";
import { bothStates } from "./accessory-states";
import { cardRows, writtenOn } from "./cards";
import { dueBySteps } from "./due-tasks";
import { forms } from "./forms";
import { type Past, sayPast, stepOfPast, unsettled } from "./history/history";
import { inOrder, openSteps } from "./open-steps";
import { ofKind, placeIn } from "./place-in";
import { pageSigned, recordIssues } from "./safety-record";
import { concerns, type Step, safetyBefore, stepById } from "./steps";
import { benchOf, type DueNow, type JobView, type StepState } from "./view";

export interface NextItem {
  readonly step: string;
  readonly task: string;
  readonly state: StepState;
  readonly makes: "redo" | "check" | "first";
  readonly why: string;
  readonly amount?: string;
  /** what others did and the step has to settle first, each in a line */
  readonly past: readonly string[];
  readonly doneWhen: string;
  /** questions that it asks, and cards that it writes, by their ids */
  readonly asks: readonly string[];
  readonly cards: readonly string[];
  /** what its own record still lacks or fails, field by field; empty for steps without a record */
  readonly wanted: readonly string[];
  readonly safety: boolean;
  /** what the step wants of the set */
  readonly wants: State;
  /** what is to be heeded before it, where the state turns open or a hazard is new */
  readonly cautions: readonly Caution[];
}

/** When an amount was worked out, and whether a value of its place or of the strip was recorded since. */
function workedOut(view: JobView, d: DueNow): string {
  const from = placeIn(view.inForce, d.because);
  const work = view.inForce[from];
  const places = work?.kind === "work" ? [work.subject, "strip"] : [];
  const since = ofKind(view.inForce, "values")
    .filter((e) => placeIn(view.inForce, e.id) > from && e.at > d.at)
    .some((e) => Object.keys(e.values).some((p) => places.some((s) => p.startsWith(`${s}.`))));
  return since
    ? `as worked out on ${dayInWords(d.at)}; its values have changed since, so ask the question again`
    : `as worked out on ${dayInWords(d.at)}`;
}

const unique = (texts: readonly string[]): string[] => [...new Set(texts)];

/** What nobody has done yet is to be done whole, what work since wants of it among the rest. */
const untilDone = (title: string, task: string): string => (task.startsWith(title) ? task : `${title}: ${lowerFirst(task)}`);
/** One open step with everything that is due of it: said once. */
function itemOf(view: JobView, s: Step, state: StepState, due: readonly DueNow[], past: readonly Past[]): Omit<NextItem, "cautions"> {
  const first = due.length === 0;
  const [whole] = dueBySteps(due);
  const again = state === "due again";
  const amounts = due.flatMap((d) => (d.amount ? [`${d.amount} (${workedOut(view, d)})`] : []));
  return {
    step: s.id,
    task: first ? s.title : again ? whole.task : untilDone(s.title, whole.task),
    state,
    makes: first ? "first" : due.some((d) => d.makes === "redo") ? "redo" : "check",
    why: again ? whole.why : [state === "untouched" ? "not done yet" : "begun, not proved yet", ...(first ? [] : [whole.why])].join("; "),
    past: past.filter((p) => stepOfPast(p) === s.id).map((p) => `Others: ${sayPast(p)}. First ${p.next?.says ?? ""}. ${p.until}`),
    ...(amounts.length > 0 ? { amount: amounts.join("; ") } : {}),
    doneWhen:
      s.id === "03" && view.chassis.startsWith("live")
        ? "line isolation transformer recorded and the chassis proved dead with the plug either way round, cord and fuse decided, no metal of the chassis within reach; never earthed; local code prevails"
        : s.doneWhen,
    asks: questions.filter((q) => q.steps.includes(s.id)).map((q) => q.id),
    cards: forms.filter((f) => f.steps.includes(s.id)).map((f) => f.id),
    wanted: unique(
      [...recordIssues(view, s.id), ...surveyIssues(view, s.id)].map((i) =>
        i.code === "not-read" ? i.expected : `${i.path.replace(/^[\w-]+ card, /, "")}${i.read === "" ? "" : ` (${i.read}: ${i.expected})`}`,
      ),
    ),
    safety: s.safety,
    wants: s.state,
  };
}

/**
 * What to do next: every open step once, in the order of what it rests on, safety first and again at the end. What this set lacks is left out.
 *
 * @param view the job as it stands
 * @param only which of them are listed; cautions are worked out for the list as it is then read
 * @returns every open item, first things first
 * @source graph of steps.ts
 */
export function nextSteps(view: JobView, only: (s: { readonly due: readonly DueNow[] }) => boolean = () => true): NextItem[] {
  const open = openSteps(view);
  const bench = benchOf(view, "");
  const signed = (bench.cardField("safety-in", pageSigned) ?? "").trim() !== "";
  const before = carefully({ ...setFigures(bench), signed });
  const proved = isSafeToJoin(view.chassis);
  const past = unsettled(view);
  const listed = inOrder(open).filter((s) => only({ due: open.get(s.id)?.due ?? [] }));
  return listed.map((s) => {
    const hazards: readonly Hazard[] = proved ? s.hazards.filter((h) => h !== "live-chassis") : [...s.hazards, "line", "live-chassis"];
    const item = itemOf(view, s, open.get(s.id)?.state ?? "untouched", open.get(s.id)?.due ?? [], past);
    return { ...item, cautions: before({ state: s.state, hazards: isOpen(s.state) || s.hazards.includes("line") ? hazards : [] }) };
  });
}

/** Steps that a survey proves: nothing was looked at while its card is empty. Both states of an accessory are proved by what was read of them. */
const surveys: Readonly<Record<string, string>> = { "05": "capacitors", "31c": "accessory-capacitors" };
function surveyIssues(view: JobView, step: string): Issue[] {
  if (step === bothStates) return stateIssues(view);
  const card = Object.hasOwn(surveys, step) ? surveys[step] : undefined;
  if (card === undefined || cardRows(view, card).length > 0) return [];
  return [
    {
      path: `${card} card, a row for each capacitor that was looked at`,
      code: "not-measured",
      read: "",
      expected: "at least one row",
    },
  ];
}

/**
 * Why a step can't be said to be proved yet: it waits for the safety steps that it rests on, and a safety step for its own record, each value within its limit
 * and none older than work that touched it; a survey for its card, both states of an accessory for their readings; hand-over waits for all of them, and for whatever work has made due again.
 *
 * @param view the job as it stands
 * @param step number of the step
 * @returns what stands in the way, at its place; nothing where it may be proved
 * @source graph of steps.ts; safety-record.ts
 */
export function proofIssues(view: JobView, step: string): Issue[] {
  const waits = safetyBefore(step).filter((n) => view.steps.find((s) => s.id === n)?.state !== "proven");
  // what is left undone at hand-over is told to the owner, or it is done first
  const told = (writtenOn(view, "handover")["What was not done"] ?? "").trim() !== "";
  const due = step === "36" && !told ? view.steps.filter((s) => s.due.length > 0 && s.id !== "36" && concerns(s.id, view.set)) : [];
  return [
    ...waits.map((n) => ({
      path: `step ${step}`,
      code: "not-before",
      read: step,
      expected: `step ${n}, ${stepById(n)?.title}, to be proved first`,
      needs: n,
    })),
    ...due.map((s) => ({
      path: `step ${step}`,
      code: "due-again",
      read: step,
      expected: `step ${s.id}, ${stepById(s.id)?.title}, which work has made due again, or "What was not done" written on the handover card`,
      needs: s.id,
    })),
    ...waits.flatMap((n) => recordIssues(view, n)),
    ...recordIssues(view, step),
    ...surveyIssues(view, step),
  ];
}
