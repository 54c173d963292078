import { historyCommand } from "../../desk/commands/history";
import { type Past, sayLead } from "../../job/history/history";
import { isOpen, stateWord } from "../../standards/cautions";
import { upperFirst } from "../../units/sentence";
import { line } from "./line";
import { cautionLines, columnsOf, type Page, wrap } from "./render";

function pastText(p: Past, job: string, page: Page): string[] {
  const out = wrap(`${upperFirst(p.meaning)}: ${p.word}${p.words ? ` (${p.words})` : ""}`, page.columns).map(page.bold);
  out.push(...wrap(`This puts in doubt: ${p.widens}.`, page.columns, "   "));
  if (p.next === undefined) return [...out, "   Settled: every measurement for it is done."];
  out.push(...wrap(p.until, page.columns, "   "), ...cautionLines(p.cautions, page, "   "));
  p.leads.forEach((l, i) => {
    const head = `   ${l.done ? "done" : `${i + 1}.`.padEnd(4)} `;
    out.push(
      ...wrap(
        `${isOpen(l.state) && !l.done ? `[${stateWord[l.state]}] ` : ""}${l.done ? l.says : sayLead(l, job)}`,
        page.columns,
        head,
        "        ",
      ),
    );
  });
  return out;
}

export const historyLine = line(historyCommand, async ({ said, here, act, out, world: { page } }) => {
  const past = await act(said);
  if (here.json) return out(JSON.stringify(past, null, 1));
  const so = past.filter((p) => p.word === "seen" || p.word === "told");
  const open = past.filter((p) => p.word === "unknown");
  const not = past.filter((p) => p.word === "not so");
  const lines = so.flatMap((p) => [...pastText(p, said.job, page), ""]);
  if (not.length > 0) lines.push(...wrap(`Checked, and not so: ${not.map((p) => p.meaning).join("; ")}.`, page.columns), "");
  if (open.length > 0)
    lines.push(
      page.bold("Not known yet. Ask the owner; look, with the set unplugged:"),
      ...columnsOf(
        open.map((p) => [p.name, `${p.meaning}${here.all || so.length === 0 ? `: ${p.howSeen}` : ""}`]),
        page.columns,
      ),
      "",
      `To record it: fettle history "${said.job}" NAME="seen: in your words"; or told, or "not so".`,
    );
  out(lines.join("\n").trimEnd());
});
