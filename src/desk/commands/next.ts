import { z } from "zod";
import { foremost } from "../../job/rollups/foremost";
import { openJob } from "../actions";
import { declare, flag, job } from "../declare";

export const next = declare({
  name: "next",
  says: "what to do next, safety first, with why",
  example: 'fettle next "Harbour club set"',
  records: false,
  takes: z.object({ job: job() }),
  here: z.object({ all: flag("--all", "every open step"), json: flag("--json", "for programs") }),
  act: ({ job: name }, { desk }) => desk(async (d) => foremost(await openJob(d, name), d.stamp.at)),
});
