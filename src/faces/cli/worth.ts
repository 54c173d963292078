import { worth } from "../../desk/commands/worth";
import type { Cost } from "../../job/rollups/worth/costs";
import type { Waited, Weighed, Worth } from "../../job/rollups/worth/worth";
import { stateWord } from "../../standards/cautions";
import type { Range } from "../../standards/minutes";
import { upperFirst } from "../../units/sentence";
import { quoted } from "./inputs";
import { line } from "./line";
import { nextText } from "./next-text";
import { cautionLines, type Page, wrap } from "./render";

/** How many choices are told where nobody asks for all. */
const mostTold = 5;
/** Minutes as a person says them: to five from ten on, in hours from two hours on. */
const inHours = (min: number): boolean => min >= 115;
const number = (min: number, hours: boolean): string =>
  String(hours ? Number((min / 60).toPrecision(2)) : min >= 10 ? 5 * Math.round(min / 5) : Math.max(1, Math.round(min)));
const unit = (hours: boolean): string => (hours ? "h" : "min");
const time = (min: number): string => `${number(min, inHours(min))} ${unit(inHours(min))}`;
function range([low, high]: Range): string {
  if (time(low) === time(high)) return time(low);
  const alike = inHours(low) === inHours(high);
  return `${alike ? number(low, inHours(low)) : time(low)} to ${time(high)}`;
}
const costText = ({ hands, itself, turns }: Cost): string =>
  [
    `${range(hands)}${turns.length > 0 ? `, with: ${turns.join("; ")}` : ""}`,
    ...(itself[1] > 0 ? [`${range(itself)} more running by itself: stay with the set`] : []),
  ].join("; ");

function choiceLines(c: Weighed, k: number, job: string, page: Page): string[] {
  return [
    ...cautionLines(c.cautions, page, "    "),
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
const waitedText = (w: Waited): string =>
  `${w.for}${w.until ? `, until ${w.until.slice(0, 16).replace("T", " ")}` : ""}${w.holds.length > 0 ? `: then ${w.holds.join("; ")}` : ""}`;
function leftOutText({ leftOut: { safety, open, long } }: Worth): string {
  const parts = [
    ...(safety > 0 ? [`${safety} waiting for a safety step`] : []),
    ...(open > 0 ? [`${open} need the set open`] : []),
    ...(long > 0 ? [`${long} take longer`] : []),
  ];
  return parts.length > 0 ? `Left out: ${parts.join(", ")}.` : "";
}
function remainingText({ remaining: r }: Worth): string {
  if (r.steps === 0) return "Nothing is left to do.";
  const itself = r.itself[1] > 0 ? `, plus ${range(r.itself)} of running by itself` : "";
  const faults = r.faults > 0 ? `; about ${time(r.faults)} of that to find and mend what is wrong` : "";
  return `Left to do: ${r.steps} steps, about ${time(r.hands)} of work, ${range(r.range)}${itself}${faults}.`;
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
  if (w.choices.length > told.length) out.push("", `and ${w.choices.length - told.length} more (--all).`);
  if (w.waiting.length > 0) out.push("", ...w.waiting.flatMap((x) => wrap(waitedText(x), page.columns, "Waiting for ", "  ")));
  out.push("", ...[leftOutText(w), remainingText(w)].filter((t) => t !== "").flatMap((t) => wrap(t, page.columns)));
  return out.join("\n");
}
export const worthLine = line(worth, async ({ said, here, act, out, world: { page } }) => {
  const w = await act(said);
  out(here.json ? JSON.stringify(w, null, 1) : worthText(w, said.job, here.all ? w.choices.length : mostTold, page));
});
