import { z } from "zod";
import { readingStates } from "../../job/format";
import { InputError } from "../../units/issue";
import { openJob } from "../actions";
import { declare, job, nothing } from "../declare";
import { record } from "../record";
import { loopSchema, takeEntries, takesSchema } from "../taken";
import { takeKinds } from "../takes";

/** The page's way to keep what recordings of some seconds each, live or from files, came to. */
export const taken = declare({
  name: "taken",
  says: "keep hum, noise, crackle or an audio response heard on the page as a reading",
  records: true,
  takes: z.object({
    job: job(),
    kind: z.enum(takeKinds),
    takes: takesSchema,
    state: z.enum(readingStates).default("as-left"),
    gain: z.enum(["manual", "automatic"]).optional(),
    avc: z.enum(["off", "on", "held"]).optional(),
    level: z.string().optional(),
    mode: z.enum(["AM", "CW or SSB"]).optional(),
    depth: z.string().optional(),
    loop: loopSchema.optional(),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const entries = takeEntries(view, said, d.stamp);
      const [first] = entries;
      if (first?.kind !== "reading")
        throw new InputError([{ path: "takes", code: "bad-request", read: said.kind, expected: "the first of its recordings" }]);
      const { revision } = await record(d, view, entries);
      return { revision, reading: first.reading.id, gave: entries.length > 1 };
    }),
  routes: [{ method: "POST", may: "bench", path: "/api/jobs/:name/taken", body: "json", gives: (kept) => ({ json: kept }) }],
});
