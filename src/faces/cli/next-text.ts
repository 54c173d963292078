import type { NextItem } from "../../job/next";
import { stateWord } from "../../standards/cautions";
import { cautionLines, type Page, wrap } from "./render";

/** Why a step is open, where that is more than that nobody has begun it. */
const whyOf = (i: NextItem): string =>
  i.makes === "first" && i.state === "untouched" ? "" : `Why: ${i.why}${i.makes === "check" ? " (a quick check is enough)" : ""}.`;

/**
 * What to do next, in order, each with why and its cautions.
 *
 * @param items as `next` has them
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
      ...cautionLines(i.cautions, page, "    "),
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
