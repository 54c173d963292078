import { z } from "zod";
import { openJob } from "../actions";
import { amending } from "../amend";
import { declare, dryRun, field, job, nothing } from "../declare";
import { pairs } from "../pairs";
import { record } from "../record";

export const amend = declare({
  name: "amend",
  says: "correct the description: add, change or take out a tube, stage, band, can, B+ point, tap or accessory; shows what that disturbs",
  example: 'fettle amend "Attic set" tubes V5 type=12AX7 function="first audio" --dry-run',
  records: true,
  takes: z.object({
    job: job(),
    list: field(z.string(), "<list>", "stages, tubes, bands, cans, nodes, taps or fittings"),
    member: field(z.string().min(1).max(60), "<member>", "its id: if1, V5, b, can2 (fettle show lists them)"),
    fields: field(z.record(z.string(), z.string()), "[field=value...]", 'what it is, such as type=6BA6, range="7 - 7.3 MHz spread"', {
      words: (typed) => pairs(typed, "field=value"),
      unsaid: {},
    }),
    out: field(z.boolean().default(false), "--out", "take it out of the description", { given: true, unsaid: false }),
    after: field(z.string().optional(), "--after <member>", "the member a new one goes after"),
    why: field(z.string().max(500).default(""), "--why <text>", "in your words"),
    record: dryRun("show what it would disturb, record nothing"),
  }),
  here: nothing,
  act: ({ job: name, record: keep, ...said }, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, name);
      const plan = amending(view, said, d.stamp);
      const kept = keep ? { revision: (await record(d, view, plan.entries)).revision } : {};
      return { plan, kept };
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/amend",
      body: "json",
      gives: ({ plan: { due, hangs, was, is }, kept }) => ({ json: { due, hangs, was: was ?? null, is, ...kept } }),
    },
  ],
});
