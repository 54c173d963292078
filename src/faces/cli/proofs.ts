import { openJob } from "../../desk/actions";
import { record } from "../../desk/record";
import { entryNamed, takeBack, whatFalls } from "../../desk/take-back";
import { stepById } from "../../job/steps";
import { InputError, orThrow } from "../../units/issue";
import type { Commands } from "./commands";
import { describeEntry } from "./jobs";

/** What is said of what was recorded: a step proved, an entry taken back. */
export function proofCommands({ command, desk, world }: Commands): void {
  const { out } = world;
  command("done <job> <step>", "record that a step is proved", 'fettle done "Kitchen set" 06 --note "all within 10 %, two replaced"')
    .option("--note <text>", "what proves it", "")
    .action(async (job: string, step: string, o: { note: string }) => {
      const s = stepById(step);
      if (!s)
        throw new InputError([
          {
            path: "step",
            code: "no-step",
            read: step,
            expected: stepById(`0${step}`)
              ? `the number of a step as it is written: 0${step}, ${stepById(`0${step}`)?.title}`
              : "the number of a step (fettle steps lists them)",
          },
        ]);
      await desk(async (d) => {
        const view = await openJob(d, job);
        await record(d, view, [{ id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "done", step, note: o.note }]);
        out(`Recorded: step ${step} (${s.title}) is proved. Done when: ${s.doneWhen}.`);
      });
    });

  command(
    "correct <job> <entry>",
    "take back an entry: it stays in the history, superseded",
    'fettle correct "Kitchen set" 3f2a… --why "read the wrong scale"',
  )
    .requiredOption("--why <text>", "why it is taken back")
    .action(async (job: string, entry: string, o: { why: string }) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        const { fallen } = orThrow(whatFalls(view, d.stamp.who, orThrow(entryNamed(view, entry)).id));
        await takeBack(d, view, fallen, o.why);
        for (const e of fallen) out(`Superseded ${e.id} (${e.kind}). It stays in the history.`);
      });
    });

  command(
    "undo <job> [entry]",
    "take back the last thing that you recorded, or the entry named, with all that was made of it",
    'fettle undo "Kitchen set"',
  )
    .option("--why <text>", "why it is taken back", "taken back")
    .option("--dry-run", "show what would fall, take nothing back")
    .action(async (job: string, entry: string | undefined, o: { why: string; dryRun?: boolean }) => {
      await desk(async (d) => {
        const view = await openJob(d, job);
        const { fallen } = orThrow(whatFalls(view, d.stamp.who, entry));
        if (!o.dryRun) await takeBack(d, view, fallen, o.why);
        out(
          [
            o.dryRun ? "This would be taken back:" : "Taken back; it stays in the history:",
            ...fallen.map((e) => `  ${e.id}  ${e.at.slice(0, 16).replace("T", " ")}  ${e.kind}  ${describeEntry(e)}`.trimEnd()),
            ...(o.dryRun ? ["Nothing was recorded (--dry-run)."] : []),
          ].join("\n"),
        );
      });
    });
}
