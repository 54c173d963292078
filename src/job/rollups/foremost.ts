import { carefully, setFigures } from "../../ask/care";
import { isSafeToJoin } from "../../ask/chassis";
import type { Caution, State } from "../../standards/cautions";
import { upperFirst } from "../../units/sentence";
import { type Fault, faultsOf } from "../faults/faults";
import { faultInShort, isUnmended } from "../faults/in-short";
import { type NextItem, nextSteps } from "../next";
import { safetyBefore } from "../steps";
import { benchOf, type JobView } from "../view";
import { shortAmount } from "./route";

/** What a fault asks for next, once nothing of safety stands before it. */
export interface FaultAct {
  readonly fault: Fault;
  readonly does: "seek" | "mend";
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
  /** open steps in order */
  readonly items: readonly NextItem[];
}
const clause = (s: string): string => s.split(/; /)[0];
/** A step's title as it stands in a sentence. */
export const inSentence = (task: string): string => task.replace(/: /g, ", ");

function wrongWith(view: JobView, items: readonly NextItem[]): string {
  if (view.chassis === "live") return "The line is on this chassis.";
  if (!isSafeToJoin(view.chassis)) return "This chassis is not proved isolated, so it counts as live.";
  const [fault, ...others] = faultsOf(view).filter(isUnmended);
  if (fault) {
    // the place says which tube it is; what else its readings show stands with the fault
    const says = clause(faultInShort(fault)).replace(/(?<=: )V\w+(?: pin \w+)?, /, "");
    return `${upperFirst(says)}${others.length > 0 ? `; and ${others.length === 1 ? "one more fault" : `${others.length} more faults`}` : ""}.`;
  }
  const due = items.flatMap((i) => view.steps.find((s) => s.id === i.step)?.due ?? []);
  const worst = due.find((d) => d.amount && d.makes === "redo") ?? due.find((d) => d.amount) ?? due.find((d) => d.makes === "redo");
  if (worst) return `${upperFirst(clause(worst.why))}${worst.amount ? `: ${shortAmount(worst.amount)}` : ""}.`;
  return items.length === 0 ? "Everything is proved on this set." : "Nothing is known to be wrong with this set.";
}

const actSaid: Readonly<Record<FaultAct["does"], string>> = { seek: "find out why", mend: "mend it" };
/** Safety that any work in an open set rests on, as ohms at the supply do. */
const beforeOpening: readonly string[] = safetyBefore("04");

/** What follows from a fault: its cause is sought at the desk; mending opens the set, so what is still open of safety comes before it. */
function actOf(fault: Fault, items: readonly NextItem[]): FaultAct | NextItem {
  if (fault.state !== "cause found") return { fault, does: "seek" };
  return items.find((i) => beforeOpening.includes(i.step)) ?? { fault, does: "mend" };
}

/**
 * What is wrong with a set and what to do now: its chassis, else what is faulty, else the worst that is due again; and what follows from that: the next act
 * of the fault, else the first step that is free.
 *
 * @param view the job as it stands
 * @returns two sentences, what the second wants of the set, and the open steps in order, the one that is done now first
 * @source house frame
 */
export function foremost(view: JobView): Foremost {
  const open = nextSteps(view);
  const safe = isSafeToJoin(view.chassis);
  const [fault] = safe ? faultsOf(view).filter(isUnmended) : [];
  const act = fault ? actOf(fault, open) : open.at(0);
  const said = { ...(fault ? { faulty: fault.place } : {}), wrong: wrongWith(view, open) };
  if (act === undefined) return { ...said, now: "It can go home.", wants: "desk", cautions: [], items: open };
  if ("does" in act) {
    const wants = act.does === "mend" ? "open-dead" : "desk";
    const cautions = carefully(setFigures(benchOf(view, act.fault.place)))({ state: wants, hazards: ["b-plus", "stored-charge"] });
    return { ...said, now: `Now: ${actSaid[act.does]}.`, act, wants, cautions, items: open };
  }
  return {
    ...said,
    now: `${safe && !(fault && act.safety) ? "Now" : "First"}: ${inSentence(act.task)}.`,
    wants: act.wants,
    cautions: act.cautions,
    items: [act, ...open.filter((i) => i !== act)],
  };
}
