import { z } from "zod";
import { leastForInterval, mostDraws } from "../../ask/answer";
import { guessesBehind } from "../../job/rollups/guesses";
import { InputError, orThrow } from "../../units/issue";
import { openJob, sheetNamed } from "../actions";
import { declare, field, flag, unseen, whence } from "../declare";
import { keepTried } from "../keep-tried";
import { pairs } from "../pairs";
import { record } from "../record";
import { withUnit } from "../with-unit";

/** A whole number as an option takes it. */
function whole(option: string, text: string, least: number, most: number): number {
  const n = Number(text);
  if (!Number.isInteger(n) || n < least || n > most)
    throw new InputError([{ path: option, code: "not-whole", read: text, expected: `a whole number from ${least} to ${most}` }]);
  return n;
}
/** The job in which what was tried is recorded, where there is a job and something was tried. */
function toRecord(job: string | undefined, tried: Readonly<Record<string, string>>): string {
  const issue = (read: string, expected: string) => new InputError([{ path: "--record", code: "nothing-tried", read, expected }]);
  if (job === undefined) throw issue("no job", "the name of the job to record in, after the id of the sheet");
  if (Object.keys(tried).length === 0) throw issue("nothing tried", "at least one --try NAME=VALUE: --record keeps what was tried");
  return job;
}

export const sheet = declare({
  name: "sheet",
  says: "answer one question, about a job or with usual values",
  example: 'fettle sheet cable-load "Harbour club set" --try cableLength="3 ft"',
  records: true,
  takes: z.object({
    sheet: field(z.string(), "<id>", "the question (fettle sheets lists them)"),
    job: field(z.string().optional(), "[job]", "name of the job"),
    inputs: flag("--inputs", "list the inputs: value, origin, how to measure each, and the command that records it"),
    at: field(z.string().optional(), "--at <path>", "which subject, such as fittings.qm"),
    tried: field(z.record(z.string(), z.string()), "--try <name=value>", "what if: another value for an input (repeat as needed)", {
      words: (typed) => pairs(typed, "--try"),
      unsaid: {},
    }),
    bands: unseen(z.enum(["all"]).optional(), undefined),
    record: flag("--record", "keep in the job what was tried"),
    origin: whence(),
    why: field(z.string(), "--why <text>", "with --record: source, in your words", { unsaid: "tried, and kept" }),
    seed: field(z.string(), "--seed <n>", "seed of the draws", { unsaid: "1" }),
    draws: field(z.string(), "--draws <n>", `number of draws, ${leastForInterval} to ${mostDraws}`, { unsaid: "2000" }),
  }),
  here: z.object({
    json: flag("--json", "for programs: SI numbers"),
    judge: flag("--judge", "exit with 1 when a finding says danger or act"),
    theory: flag("--theory", "how this is worked out: formulas, limits, sources, an example"),
  }),
  act: async ({ job, ...said }, at) => {
    if (said.record) toRecord(job, said.tried);
    const sheet = sheetNamed(said.sheet);
    const view = job === undefined ? undefined : await at.desk((d) => openJob(d, job));
    const [seed, draws] = [whole("--seed", said.seed, 1, 1_000_000), whole("--draws", said.draws, leastForInterval, mostDraws)];
    const how = { overrides: said.tried, seed, draws, inputsAlone: said.inputs, bands: said.bands };
    const answer = await at.errands.run("sheet", { document: view?.document, sheet: sheet.id, at: said.at, ask: how }, at).catch((e) => {
      throw withUnit(e, { sheet, job, at: said.at, tried: said.tried, record: said.record });
    });
    /** keeps in the job what was tried; how many values that were */
    const keep = (): Promise<number> =>
      at.desk(async (d) => {
        const now = await openJob(d, toRecord(job, said.tried));
        const kept = orThrow(
          keepTried(now, sheet, { at: answer.at, written: said.tried }, { origin: said.origin, why: said.why }, d.stamp),
        );
        await record(d, now, kept);
        return kept.length;
      });
    const leaning = view && !said.inputs ? guessesBehind(view, sheet, answer) : [];
    return { sheet, answer, keep, leaning };
  },
});
