import { leastForInterval, mostDraws } from "../../ask/answer";
import { openJob, sheetNamed } from "../../desk/actions";
import { keepTried } from "../../desk/keep-tried";
import { record } from "../../desk/record";
import { nextSteps } from "../../job/next";
import { InputError, orThrow } from "../../units/issue";
import { type Commands, collect, pairs, whence } from "./commands";
import { inputsText } from "./inputs";
import { answerJson } from "./json";
import { answerText, nextText } from "./render";

/** A whole number as an option takes it. */
function whole(option: string, text: string, least: number, most: number): number {
  const n = Number(text);
  if (!Number.isInteger(n) || n < least || n > most)
    throw new InputError([{ path: option, code: "not-whole", read: text, expected: `a whole number from ${least} to ${most}` }]);
  return n;
}

/** Questions: a sheet, and what to do next. */
export function askCommands({ command, desk, world, errands, judge }: Commands): void {
  const { out, page } = world;
  command(
    "sheet <id> [job]",
    "answer one question, about a job or on defaults",
    'fettle sheet cable-load "Harbour club set" --try cableLength="3 ft"',
  )
    .option("--inputs", "list the inputs: value, origin, how each is measured, and the command that records it")
    .option("--at <path>", "which subject, such as fittings.qm")
    .option("--try <name=value>", "what if: another value for an input (repeat as needed)", collect, [])
    .option("--record", "keep in the job what was tried")
    .addOption(whence())
    .option("--why <text>", "with --record: source, in your words", "tried, and kept")
    .option("--json", "for programs: SI numbers")
    .option("--judge", "exit with 1 when a finding says danger or act")
    .option("--theory", "how this is worked out: formulas, limits, sources, an example")
    .option("--seed <n>", "seed of the draws", "1")
    .option("--draws <n>", `number of draws, ${leastForInterval} to ${mostDraws}`, "2000")
    .action(
      async (
        id: string,
        job: string | undefined,
        o: {
          inputs?: boolean;
          at?: string;
          try: string[];
          record?: boolean;
          origin: "stated";
          why: string;
          json?: boolean;
          judge?: boolean;
          theory?: boolean;
          seed: string;
          draws: string;
        },
      ) => {
        const sheet = sheetNamed(id);
        if (o.theory) return out(sheet.theory.trimEnd());
        const view = job === undefined ? undefined : await desk((d) => openJob(d, job));
        world.progress(`working out ${sheet.title.toLowerCase()}...`);
        const [seed, draws] = [whole("--seed", o.seed, 1, 1_000_000), whole("--draws", o.draws, leastForInterval, mostDraws)];
        const a = await errands.run(
          "sheet",
          {
            document: view?.document,
            sheet: id,
            at: o.at,
            ask: { overrides: pairs(o.try, "--try"), seed, draws: o.inputs ? 10 : draws },
          },
          { progress: world.progress },
        );
        world.progress("");
        if (o.inputs)
          out(o.json ? JSON.stringify((answerJson(a) as { inputs: unknown }).inputs, null, 1) : inputsText(a, sheet, job, page));
        else out(o.json ? JSON.stringify(answerJson(a), null, 1) : answerText(a, sheet, page));
        if (o.record)
          await desk(async (d) => {
            if (job === undefined || o.try.length === 0)
              throw new InputError([
                { path: "--record", code: "nothing-tried", read: job ?? "no job", expected: "a job, and values with --try" },
              ]);
            const now = await openJob(d, job);
            const kept = orThrow(keepTried(now, sheet, a, pairs(o.try, "--try"), { origin: o.origin, why: o.why }, d.stamp));
            await record(d, now, kept);
            out(`Recorded ${kept.length} ${kept.length === 1 ? "value" : "values"} in "${job}".`);
          });
        if (a.missing.length > 0) judge(2);
        else if (o.judge && a.findings.some((f) => f.severity === "danger" || f.severity === "act")) judge(1);
      },
    );

  command("next <job>", "what to do next, safety first, with why", 'fettle next "Harbour club set"')
    .option("--all", "every open step")
    .option("--json", "for programs")
    .action(async (job: string, o: { all?: boolean; json?: boolean }) => {
      const items = nextSteps(await desk((d) => openJob(d, job)));
      out(o.json ? JSON.stringify(items, null, 1) : nextText(items, page, o.all ? items.length : 8));
    });
}
