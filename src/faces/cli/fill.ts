import { basename } from "node:path";
import { openJob } from "../../desk/actions";
import { fillCard } from "../../desk/fill-card";
import { record } from "../../desk/record";
import { formById } from "../../job/forms";
import { orThrow, sayIssue } from "../../units/issue";
import { cardFieldLines } from "./card-fields";
import { type Commands, pairs } from "./commands";
import { readBytes } from "./world";

const count = (n: number, what: string): string => `${n} ${what}${n === 1 ? "" : "s"}`;

/** Record cards: written on, or asked what they hold room for. */
export function fillCommand({ command, desk, world, judge }: Commands): void {
  const { out, page } = world;
  command(
    "fill <job> <card> [field=value...]",
    "write on a record card; alone, list its fields; exits with 1 where a cell was not kept",
    'fettle fill "Kitchen set" voltage-chart --rows chart.csv "Line volts"=121',
  )
    .option("--rows <file>", "rows of its table from CSV, columns headed as on the card")
    .action(async (job: string, card: string, typed: string[], o: { rows?: string }) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        const form = formById(card);
        if (form && typed.length === 0 && o.rows === undefined) return out(cardFieldLines(view, form, page.columns).join("\n"));
        const rows = o.rows === undefined ? undefined : { name: basename(o.rows), bytes: readBytes(o.rows) };
        const filled = orThrow(fillCard(view, card, pairs(typed, "field"), rows, d.stamp));
        await record(d, view, [filled.entry]);
        out(`Written on the card ${card} of "${job}".`);
        if (filled.rows && filled.rows.before > 0)
          out(
            `${count(filled.rows.before, "row")} of its table replaced by ${filled.rows.after}. What fell stays readable (fettle show "${job}" --entries), and fettle undo "${job}" brings it back.`,
          );
        if (filled.refused.length === 0) return;
        for (const i of filled.refused) world.err(sayIssue(i));
        world.err(`Kept ${filled.keptCount}, not kept ${filled.refused.length}: type those again, each by its field.`);
        judge(1);
      });
    });
}
