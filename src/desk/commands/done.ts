import { z } from "zod";
import { type Step, stepById } from "../../job/steps";
import { InputError } from "../../units/issue";
import { openJob } from "../actions";
import { declare, field, job, nothing } from "../declare";
import { record } from "../record";

/** The step that a person names by its number. */
function stepNamed(step: string): Step {
  const s = stepById(step);
  if (s) return s;
  const meant = stepById(`0${step}`);
  const expected = meant
    ? `the number of a step as it is written: ${meant.id}, ${meant.title}`
    : "the number of a step (fettle steps lists them)";
  throw new InputError([{ path: "step", code: "no-step", read: step, expected }]);
}

export const done = declare({
  name: "done",
  says: "record that a step is proved",
  example: 'fettle done "Kitchen set" 06 --note "all within 10 %, two replaced"',
  records: true,
  takes: z.object({
    job: job(),
    step: field(z.string(), "<step>", "number of the step, such as 06"),
    note: field(z.string(), "--note <text>", "what proves it", { unsaid: "" }),
  }),
  here: nothing,
  act: async (said, { desk }) => {
    const step = stepNamed(said.step);
    const { entries } = await desk(async (d) => {
      const entry = { id: d.stamp.newId(), at: d.stamp.at, who: d.stamp.who, kind: "done", step: said.step, note: said.note };
      return record(d, await openJob(d, said.job), [entry]);
    });
    return { step, ids: entries.map((e) => e.id) };
  },
  routes: [{ method: "POST", may: "bench", path: "/api/jobs/:name/done", body: "json", gives: ({ ids }) => ({ json: { ids } }) }],
});
