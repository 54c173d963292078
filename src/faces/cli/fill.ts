import { openJob } from "../../desk/actions";
import { fill } from "../../desk/commands/fill";
import { formById } from "../../job/forms";
import { judgedCells } from "../../job/rollups/card-judged";
import { sayIssue } from "../../units/issue";
import { cardFieldLines } from "./card-fields";
import { line } from "./line";

const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? "" : "s"}`;

/** Record cards: written on, or asked what they hold room for. */
export const fillLine = line(fill, async ({ said, act, out, desk, world, judge }) => {
  const form = formById(said.card);
  if (form && Object.keys(said.fields).length === 0 && said.rows === undefined && said.down === "" && !said.sign)
    return out(cardFieldLines(await desk((d) => openJob(d, said.job)), form, world.page.columns).join("\n"));
  const filled = await act(said);
  out(`Written on the card ${said.card} of "${said.job}".`);
  if (filled.rows && filled.rows.before > 0)
    out(
      `${count(filled.rows.before, "row")} of its table replaced by ${filled.rows.after}. The old ones stay readable (fettle show "${said.job}" --entries), and fettle undo "${said.job}" brings it back.`,
    );
  if (form && filled.entry.kind === "form") {
    const judged = judgedCells(await desk((d) => openJob(d, said.job)), form, {});
    for (const [field, text] of Object.entries(filled.entry.fields)) {
      const cell = judged.get(field);
      if (cell?.verdict === "wrong") out(`${field}: ${text}, ${cell.says}.`);
    }
  }
  if (filled.refused.length === 0) return;
  for (const i of filled.refused) world.err(sayIssue(i));
  world.err(`Kept ${filled.keptCount}, not kept ${filled.refused.length}: type those again, field by field.`);
  judge(1);
});
