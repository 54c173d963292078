import { z } from "zod";
import { viewOf } from "../../job/view";
import { InputError } from "../../units/issue";
import { checkName } from "../actions";
import { declare, field, fileSchema, flag } from "../declare";
import { type Description, describing, describingRest } from "../describe";
import { record } from "../record";

/** What was understood, as a program reads it. */
const told = ({ name, makes, fields, tubes, rows, guessed, unread, leftOut }: Description) => ({
  name,
  makes,
  fields,
  tubes,
  rows,
  guessed,
  unread,
  leftOut,
});

export const describe = declare({
  name: "describe",
  says: "start a job from a tube line-up and a few words; on an existing job, add rows to its voltage chart",
  example: 'fettle describe "Attic set" --say "6SG7 6SA7 6SK7 6SK7 6SQ7 6V6 5Y3" --say "IF 455 kHz" --yes',
  records: true,
  takes: z.object({
    job: field(z.string(), "<job>", "name of the job to start, or of the job whose chart to add to"),
    from: field(fileSchema.optional(), "--from <file>", "a text file that you typed or copied; - for piped text", { file: true }),
    text: field(z.string().default(""), "--say <text>", "one line, typed here (repeat as needed)", {
      words: (lines) => lines.join("\n"),
    }),
    leaveOut: field(z.boolean().default(false), "--leave-out", "leave out each line that is not understood, and take the rest", {
      given: true,
      unsaid: false,
    }),
    record: field(z.boolean().default(false), "--yes", "record it as understood", { given: true, unsaid: false }),
  }),
  here: z.object({ json: flag("--json", "for programs: SI numbers") }),
  act: (said, { desk }) =>
    desk(async (d) => {
      checkName(said.job);
      const text = [...(said.from ? [new TextDecoder("utf-8").decode(said.from.bytes)] : []), said.text].join("\n");
      const found = await d.store.load(said.job);
      const known = found && viewOf(found.document);
      const plan = (said.leaveOut ? describingRest : describing)(said.job, text, known, d.stamp);
      if (!said.record) return { plan, told: told(plan), recorded: false };
      if (plan.unread.length > 0) throw new InputError(plan.unread);
      if (known) await record(d, known, plan.entries);
      else if (plan.set)
        await d.store.create({ id: d.stamp.newId(), name: said.job, created: d.stamp.at, set: plan.set, entries: plan.entries });
      return { plan, told: told(plan), recorded: true };
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/describe/:name",
      body: "json",
      gives: ({ told: json, recorded }) => ({ json: { ...json, recorded } }),
    },
  ],
});
