import type { NextItem } from "../../job/next";
import type { Foremost } from "../../job/rollups/foremost";
import { stateWord } from "../../standards/cautions";
import { cautionLines, type Page, wrap } from "./render";

/** Why a step is open, where that is more than that nobody has begun it. */
const whyOf = (i: NextItem): string =>
  i.makes === "first" && i.state === "untouched" ? "" : `Why: ${i.why}${i.makes === "check" ? " (a quick check is enough)" : ""}.`;

/**
 * Steps in order, each with why and its cautions.
 *
 * @param items as they are to be done
 * @param page width and bold of the terminal
 * @param most how many are told
 * @param job name of the job as the shell takes it, for the commands
 */
export function nextText(items: readonly NextItem[], page: Page, most = 10, job = "JOB"): string {
  const withWhat = (i: NextItem): string =>
    [...i.asks.map((id) => `fettle sheet ${id} ${job}`), ...i.cards.map((id) => `fettle fill ${job} ${id}`)].join("; ");
  const lines = items
    .slice(0, most)
    .flatMap((i, k) => [
      ...cautionLines(i.cautions, page, " "),
      ...wrap(`${i.task} [${stateWord[i.wants]}]`, page.columns, `${String(k + 1).padStart(2)}. `, "    ").map(page.bold),
      ...(whyOf(i) === "" ? [] : wrap(whyOf(i), page.columns, "    ")),
      ...i.past.flatMap((p) => wrap(`${p}`, page.columns, "    ")),
      ...(i.amount ? wrap(`By how much: ${i.amount}.`, page.columns, "    ") : []),
      ...wrap(`Done when: ${i.doneWhen}. Step ${i.step}, ${i.state}.`, page.columns, "    "),
      ...(withWhat(i) === "" ? [] : wrap(`With: ${withWhat(i)}.`, page.columns, "    ")),
      ...(i.wanted.length > 0 ? wrap(`Still to measure or write: ${i.wanted.join("; ")}.`, page.columns, "    ") : []),
    ]);
  return [...lines, ...(items.length > most ? ["", `and ${items.length - most} more.`] : [])].join("\n");
}

/** What is done about the fault that is in hand, before any step. */
function actText({ act, wants, cautions }: Pick<Foremost, "act" | "wants" | "cautions">, page: Page, job: string): string[] {
  if (!act) return [];
  const { fault, does, task } = act;
  const withWhat = {
    seek: `fettle faults ${job}`,
    mend: `fettle mend ${job} PART --at ${fault.place} --fault ${fault.id}`,
    "read again": `fettle fault ${job} prove ${fault.id}, once it is read`,
    close: `fettle fault ${job} close ${fault.id}`,
  }[does];
  return [
    ...cautionLines(cautions, page, " "),
    ...wrap(`${task} [${stateWord[wants]}]`, page.columns, " *  ", "    ").map(page.bold),
    ...wrap(`With: ${withWhat}.`, page.columns, "    "),
  ];
}

/**
 * What to do next: what the fault in hand asks for, then the steps in order.
 *
 * @param next as `foremost` has it
 * @param page width and bold of the terminal
 * @param most how many steps are told
 * @param job name of the job as the shell takes it, for the commands
 */
export const foremostText = (next: Foremost, page: Page, most = 10, job = "JOB"): string =>
  [...actText(next, page, job), nextText(next.items, page, most, job)].join("\n");
