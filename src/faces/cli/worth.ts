import { worth } from "../../desk/commands/worth";
import { atOnceText, costText, leftOutText, remainingText, waitedText } from "../../job/rollups/worth/words";
import type { Weighed, Worth } from "../../job/rollups/worth/worth";
import { stateWord } from "../../standards/cautions";
import { upperFirst } from "../../units/sentence";
import { quoted } from "./inputs";
import { line } from "./line";
import { nextText } from "./next-text";
import { cautionLines, type Page, wrap } from "./render";

/** How many choices are told where nobody asks for all. */
const mostTold = 5;
function choiceLines(c: Weighed, k: number, job: string, page: Page): string[] {
  return [
    ...cautionLines(c.cautions, page, " "),
    ...wrap(
      `${upperFirst(c.does)}${c.place ? `, ${c.place}` : ""} [${stateWord[c.wants]}]`,
      page.columns,
      `${String(k + 1).padStart(2)}. `,
      "    ",
    ).map(page.bold),
    ...wrap(`Worth: ${c.why}.`, page.columns, "    "),
    ...wrap(`Takes ${costText(c.cost)}.`, page.columns, "    "),
    ...(c.how ? wrap(`How: ${c.how}.`, page.columns, "    ") : []),
    ...wrap(`With: fettle ${c.with.replace("JOB", `"${job}"`)}`, page.columns, "    "),
  ];
}
/** What is worth doing, as a person reads it in a terminal. */
function worthText(w: Worth, job: string, most: number, page: Page): string {
  const told = w.choices.slice(0, most);
  const out = [...w.stop.flatMap((s) => wrap(s, page.columns, "DANGER  ", "        ").map(page.bold))];
  if (w.first.length > 0)
    out.push(page.bold("Safety first, whatever else there is to do:"), nextText(w.first, page, w.first.length, quoted(job)), "");
  const head = w.first.length > 0 ? "Then, what is most worth the time:" : "What is most worth the time:";
  out.push(page.bold(told.length > 0 ? head : "Nothing else fits now."));
  out.push(...told.flatMap((c, k) => [...(k > 0 ? [""] : []), ...choiceLines(c, k, job, page)]));
  if (w.atOnce) out.push("", ...wrap(atOnceText(w.atOnce), page.columns));
  if (w.choices.length > told.length) out.push("", `and ${w.choices.length - told.length} more (--all).`);
  if (w.waiting.length > 0) out.push("", ...w.waiting.flatMap((x) => wrap(waitedText(x), page.columns, "Waiting for ", "  ")));
  out.push("", ...[leftOutText(w), remainingText(w)].filter((t) => t !== "").flatMap((t) => wrap(t, page.columns)));
  return out.join("\n");
}
export const worthLine = line(worth, async ({ said, here, act, out, world: { page } }) => {
  const w = await act(said);
  out(here.json ? JSON.stringify(w, null, 1) : worthText(w, said.job, here.all ? w.choices.length : mostTold, page));
});
