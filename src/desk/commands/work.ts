import { z } from "zod";
import { openJob } from "../actions";
import { declare, dryRun, field, job, nothing } from "../declare";
import { pairs } from "../pairs";
import { record } from "../record";
import { unsaidOf, workedOn } from "../work";

export const work = declare({
  name: "work",
  says: "record work done, and see what it makes due again",
  example: 'fettle work "Harbour club set" cable-fitted --at fittings.qm --note "1.5 m, through the back apron"',
  records: true,
  takes: z.object({
    job: job(),
    work: field(z.string(), "<kind>", "kind of work (fettle works lists them)"),
    subject: field(z.string(), "--at <path>", "what was worked on, such as fittings.qm or stages.can1", { unsaid: "" }),
    note: field(z.string(), "--note <text>", "in your words", { unsaid: "" }),
    now: field(
      z.record(z.string(), z.string()).default({}),
      "--now <path=value>",
      "what the work changed in the set's record; same if nothing changed (repeat as needed)",
      { words: (typed) => pairs(typed, "--now") },
    ),
    record: dryRun("show what it would make due, record nothing"),
  }),
  here: nothing,
  act: ({ job: name, record: keep, ...said }, at) =>
    at.desk(async (d) => {
      const view = await openJob(d, name);
      const { at: when, who } = d.stamp;
      const whole = { ...said, subject: said.subject || workedOn(view, said.work) };
      const plan = await at.errands.run("plan", { document: view.document, said: whole, signed: { at: when, who } }, at);
      const refused = keep ? unsaidOf(plan) : undefined;
      const kept = keep && !refused ? { revision: (await record(d, view, plan.entries)).revision } : {};
      return { plan, refused, kept };
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/work",
      body: "json",
      gives: ({ plan, refused, kept }) => {
        if (refused) throw refused;
        return { json: { due: plan.due, asks: plan.asks, ...(plan.danger ? { danger: plan.danger } : {}), ...kept } };
      },
    },
  ],
});
