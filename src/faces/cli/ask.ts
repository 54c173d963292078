import { nextSteps } from "../../job/next";
import { InputError } from "../../units/issue";
import { ask, openJob, sheetNamed } from "../shared/actions";
import { type Commands, collect, pairs } from "./commands";
import { answerJson } from "./json";
import { answerText, inputsText, nextText } from "./render";

const whole = (text: string): number => {
  const n = Number(text);
  if (!Number.isInteger(n) || n < 1 || n > 1_000_000)
    throw new InputError([{ path: "--seed or --draws", code: "not-whole", read: text, expected: "a whole number from 1 to 1,000,000" }]);
  return n;
};

/** Questions: a sheet, and what to do next. */
export function askCommands({ command, desk, world, judge }: Commands): void {
  const { out, page } = world;
  command(
    "sheet <id> [job]",
    "answer one question, about a job or on defaults",
    'fettle sheet cable-load "Harbour club set" --try cableLength="3 ft"',
  )
    .option("--inputs", "list the inputs with unit, value, origin and how each is measured")
    .option("--at <path>", "which subject, such as fittings.qm")
    .option("--try <name=value>", "what if: another value for an input (repeat as needed)", collect, [])
    .option("--json", "for programs: SI numbers")
    .option("--judge", "exit with 1 when a finding says danger or act")
    .option("--theory", "how this is worked out: formulas, limits, sources, an example")
    .option("--seed <n>", "seed of the draws", "1")
    .option("--draws <n>", "number of draws", "2000")
    .action(
      async (
        id: string,
        job: string | undefined,
        o: { inputs?: boolean; at?: string; try: string[]; json?: boolean; judge?: boolean; theory?: boolean; seed: string; draws: string },
      ) => {
        const sheet = sheetNamed(id);
        if (o.theory) return out(sheet.theory.trimEnd());
        const view = job === undefined ? undefined : await desk((d) => openJob(d, job));
        world.progress(`working out ${sheet.title.toLowerCase()}...`);
        const a = ask(sheet, view, o.at, {
          overrides: pairs(o.try, "--try"),
          seed: whole(o.seed),
          draws: o.inputs ? 10 : whole(o.draws),
          progress: world.progress,
        });
        world.progress("");
        if (o.inputs) out(o.json ? JSON.stringify((answerJson(a) as { inputs: unknown }).inputs, null, 1) : inputsText(a, sheet, page));
        else out(o.json ? JSON.stringify(answerJson(a), null, 1) : answerText(a, sheet, page));
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
