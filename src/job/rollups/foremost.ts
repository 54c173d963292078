import { isSafeToJoin } from "../../ask/chassis";
import { upperFirst } from "../../units/sentence";
import { faultsOf } from "../faults/faults";
import { faultInShort, isUnmended } from "../faults/in-short";
import { type NextItem, nextSteps } from "../next";
import type { JobView } from "../view";
import { shortAmount } from "./route";

/** The one thing to know of a set and the one thing to do, each a sentence. */
export interface Foremost {
  /** place of the fault that it tells of */
  readonly faulty?: string;
  readonly wrong: string;
  readonly now: string;
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

/**
 * What is wrong with a set and what to do now: its chassis, else what is faulty, else the worst that is due again; and the first step that is free.
 *
 * @param view the job as it stands
 * @returns two sentences, and the open steps in order
 * @source house frame
 */
export function foremost(view: JobView): Foremost {
  const items = nextSteps(view);
  const first = items.at(0);
  const [fault] = isSafeToJoin(view.chassis) ? faultsOf(view).filter(isUnmended) : [];
  return {
    ...(fault ? { faulty: fault.place } : {}),
    wrong: wrongWith(view, items),
    now: first ? `${isSafeToJoin(view.chassis) ? "Now" : "First"}: ${inSentence(first.task)}.` : "It can go home.",
    items,
  };
}
