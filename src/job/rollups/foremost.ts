import { carefully, setFigures } from "../../ask/care";
import { isSafeToJoin } from "../../ask/chassis";
import type { Caution, State } from "../../standards/cautions";
import { upperFirst } from "../../units/sentence";
import { type Fault, type FaultState, faultsOf, isOpenFault } from "../faults/faults";
import { faultInShort, isUnmended } from "../faults/in-short";
import { stillToRead } from "../faults/proving";
import { type NextItem, nextSteps } from "../next";
import { waitsOfSteps } from "../open-steps";
import { workKindById } from "../ripple";
import { type Waiting, waitingFor } from "../sitting";
import { safetyBefore } from "../steps";
import { benchOf, type DueNow, type JobView } from "../view";
import { shortAmount } from "./route";

/** What is done about a fault next. */
export interface FaultAct {
  readonly fault: Fault;
  readonly does: "seek" | "mend" | "read again" | "close";
  /** the act in a sentence that names its place */
  readonly task: string;
}
/** The one thing to know of a set and the one thing to do, each a sentence. */
export interface Foremost {
  /** place of the fault that it tells of */
  readonly faulty?: string;
  readonly wrong: string;
  readonly now: string;
  /** what is done about that fault; else the first of the open steps is what is done */
  readonly act?: FaultAct;
  /** what that wants of the set, and what is to be heeded there */
  readonly wants: State;
  readonly cautions: readonly Caution[];
  /** what is waited for, where the act would have been done but for that */
  readonly waited?: string;
  /** open steps in order */
  readonly items: readonly NextItem[];
}
const clause = (s: string): string => s.split(/; /)[0];
/** A fault in a clause: its place says which tube it is, and what else its readings show stands with the fault. */
const placed = (f: Fault): string => clause(faultInShort(f)).replace(/(?<=: )V\w+(?: pin \w+)?, /, "");
/** A step's title as it stands in a sentence. */
export const inSentence = (task: string): string => task.replace(/: /g, ", ");

/** The work that made something due, by its title. */
function workOf(view: JobView, { because }: DueNow): string {
  const work = view.works.find((w) => w.id === because);
  return workKindById(work?.work ?? "")?.title ?? "Work done since";
}
function wrongWith(view: JobView, fault: Fault | undefined, items: readonly NextItem[]): string {
  if (view.chassis === "live") return "The line is on this chassis.";
  if (!isSafeToJoin(view.chassis)) return "This chassis is not proved isolated, so it counts as live.";
  if (fault) {
    const others = faultsOf(view).filter((f) => isOpenFault(f) && f.id !== fault.id);
    const says = isUnmended(fault)
      ? placed(fault)
      : `${fault.label} is ${fault.state === "mended" ? "mended, not proved yet" : "proved, not closed yet"}`;
    return `${upperFirst(says)}${others.length > 0 ? `; and ${others.length === 1 ? "one more fault" : `${others.length} more faults`}` : ""}.`;
  }
  // what nobody has done yet is wrong only by as much as somebody has worked out
  const due = items.flatMap((i) => (view.steps.find((s) => s.id === i.step)?.due ?? []).filter((d) => d.amount || i.state === "due again"));
  const worst = due.find((d) => d.amount && d.makes === "redo") ?? due.find((d) => d.amount) ?? due.find((d) => d.makes === "redo");
  if (worst) return `${workOf(view, worst)}: ${clause(worst.why)}${worst.amount ? `: ${shortAmount(worst.amount)}` : ""}.`;
  return items.length === 0 ? "Everything is proved on this set." : "Nothing is known to be wrong with this set.";
}

const actSaid: Readonly<Record<FaultAct["does"], string>> = {
  seek: "find out why",
  mend: "mend it",
  "read again": "read it again",
  close: "close it",
};
const doesAt: Readonly<Record<FaultState, FaultAct["does"] | undefined>> = {
  noticed: "seek",
  "being traced": "seek",
  "open again": "seek",
  "cause found": "mend",
  mended: "read again",
  proved: "close",
  closed: undefined,
  left: undefined,
};
const readOrSaid = (toRead: string): string => (toRead === "" ? "everything is read again, say that it is proved" : `read again ${toRead}`);
function taskOf(view: JobView, fault: Fault, does: FaultAct["does"]): string {
  const { label } = fault;
  switch (does) {
    case "seek":
      return `Find out why: ${placed(fault)}`;
    case "mend":
      return `Mend it: ${faultInShort(fault)}`;
    case "read again":
      return `Prove the mend at ${label}: ${readOrSaid(stillToRead(view, fault))}`;
    case "close":
      return `Close the fault at ${label}: it is proved`;
  }
}
/** What an act wants of the set. */
function wantsOf({ does, fault }: Pick<FaultAct, "does" | "fault">): State {
  if (does === "mend") return "open-dead";
  if (does !== "read again") return "desk";
  return /^(?:bands\.|strip$)/.test(fault.place) ? "panel" : fault.place === "line" ? "open-dead" : "open-live";
}
/** Safety that work in an open set rests on, as ohms at the supply do; and what reading it under power does, as the voltage chart. */
const beforeActs: Partial<Record<State, readonly string[]>> = {
  "open-dead": safetyBefore("04"),
  "open-live": safetyBefore("10"),
  panel: safetyBefore("10"),
};

/** The fault that is next: one that is still in the set before those that are only to be proved; what waits for something has its time. */
function faultNext(view: JobView, isWaited: (f: Fault) => boolean): Fault | undefined {
  const all = faultsOf(view).filter((f) => isOpenFault(f) && !isWaited(f));
  return all.find(isUnmended) ?? all.find((f) => f.state === "mended") ?? all.at(0);
}
/** What follows from a fault: its cause is sought at the desk; what wants the set open or on has what is still open of safety before it. */
function actOf(view: JobView, fault: Fault, items: readonly NextItem[]): FaultAct | NextItem | undefined {
  const does = doesAt[fault.state];
  if (!does) return undefined;
  const before = beforeActs[wantsOf({ does, fault })] ?? [];
  const safety = items.find((i) => before.includes(i.step));
  // what a step of safety rests on comes before it: no power before the capacitors were decided on
  const on = safety && waitsOfSteps(view).get(safety.step);
  return items.find((i) => on?.has(i.step) || i === safety) ?? { fault, does, task: taskOf(view, fault, does) };
}
/** The first open step that waits for no other, and for nothing that has to come; else the first, with what it waits for. */
function freeStep(
  view: JobView,
  items: readonly NextItem[],
  waits: readonly Waiting[],
): { readonly item?: NextItem; readonly waited?: string } {
  const isWaited = (i: NextItem) => waits.find((w) => w.about === i.step);
  const on = waitsOfSteps(view);
  const free = items.find((i) => !isWaited(i) && on.get(i.step)?.size === 0);
  const [item] = free ? [free] : items;
  const waited = item && isWaited(item)?.for;
  return { ...(item ? { item } : {}), ...(waited ? { waited } : {}) };
}

/**
 * What is wrong with a set and what to do now: its chassis, else what is faulty, else the worst that is due again; and what follows from that: the next act
 * of the fault, else the first step that is free. Whatever is waited for is left until it has come.
 *
 * @param view the job as it stands
 * @param now ISO 8601
 * @returns two sentences, what the second wants of the set, and the open steps in order, the one that is done now first
 * @source house frame
 */
export function foremost(view: JobView, now: string): Foremost {
  const open = nextSteps(view);
  const safe = isSafeToJoin(view.chassis);
  const waits = waitingFor(view, now);
  const fault = safe ? faultNext(view, (f) => waits.some((w) => w.about === f.id || w.about === f.place)) : undefined;
  const step = freeStep(view, open, waits);
  const act = (fault && actOf(view, fault, open)) ?? step.item;
  const said = { ...(fault ? { faulty: fault.place } : {}), wrong: wrongWith(view, fault, open) };
  if (act === undefined) return { ...said, now: "It can go home.", wants: "desk", cautions: [], items: open };
  if ("does" in act) {
    const wants = wantsOf(act);
    const cautions = carefully(setFigures(benchOf(view, act.fault.place)))({ state: wants, hazards: ["b-plus", "stored-charge"] });
    return { ...said, now: `Now: ${actSaid[act.does]}.`, act, wants, cautions, items: open };
  }
  return {
    ...said,
    now: `${safe && !fault ? "Now" : "First"}: ${inSentence(act.task)}.`,
    wants: act.wants,
    cautions: act.cautions,
    ...(step.waited && act === step.item ? { waited: step.waited } : {}),
    items: [act, ...open.filter((i) => i !== act)],
  };
}
