/** The command that writes on a record card: its declaration and its act. */
import { z } from "zod";
import { formById } from "../../job/forms";
import { orThrow } from "../../units/issue";
import { openJob } from "../actions";
import { declare, field, fileSchema, job, nothing } from "../declare";
import { fillCard } from "../fill-card";
import { readDown, signing } from "../fill-down";
import { pairs } from "../pairs";
import { record } from "../record";

export const fill = declare({
  name: "fill",
  says: "fill in a record card; on its own, list the card's fields; exits with 1 if a value was not kept",
  example: 'fettle fill "Kitchen set" voltage-chart --rows chart.csv "Line volts"=121',
  records: true,
  takes: z.object({
    job: job(),
    card: field(z.string(), "<card>", "the card, such as voltage-chart"),
    fields: field(z.record(z.string(), z.string()), "[field=value...]", "fields of the card, each with its value", {
      words: (typed) => pairs(typed, "field"),
      unsaid: {},
    }),
    down: field(
      z.string().max(4000).default(""),
      "--down <readings>",
      "readings down its column, spaces between: those to be read again since work, else those not read yet; a dash leaves one out",
    ),
    sign: field(z.boolean().default(false), "--sign", "sign the card: today, by the initials of this sitting", {
      given: true,
      unsaid: false,
    }),
    rows: field(fileSchema.optional(), "--rows <file>", "rows of its table from CSV, columns headed as on the card", { file: true }),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const fields = {
        ...orThrow(readDown(view, said.card, said.down)),
        ...(said.sign ? orThrow(signing(view, said.card, d.stamp.at)) : {}),
        ...said.fields,
      };
      const filled = orThrow(fillCard(view, said.card, fields, said.rows, d.stamp));
      await record(d, view, [filled.entry]);
      return filled;
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/fill",
      body: "json",
      // what is written at the desk stays with whoever sits there: what was agreed with the owner, what he is told
      joined: ({ card }) => typeof card === "string" && (formById(card)?.state ?? "desk") !== "desk",
      gives: ({ entry, refused }) => ({ json: { id: entry.id, refused } }),
    },
  ],
});
