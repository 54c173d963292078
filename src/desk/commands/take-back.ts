import { z } from "zod";
import { orThrow } from "../../units/issue";
import { openJob } from "../actions";
import { declare, field, job, nothing } from "../declare";
import { record } from "../record";
import { takeBackRow } from "../take-back-beat";

export const takeBack = declare({
  name: "take-back",
  says: "take back one zero beat, by its row in the dial's answer; it stays in the history",
  example: 'fettle take-back "Harbour club set" 5 --band 80',
  records: true,
  takes: z.object({
    job: job(),
    row: field(z.string(), "<row>", "row of the zero beat in the dial's answer, from 1"),
    band: field(z.string(), "--band <id>", "band of the set"),
    setPoint: field(z.string().optional(), "--set-point <text>", "where the main dial was set; the latest if not given"),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const taken = orThrow(takeBackRow(view, said.band, said.setPoint, Number(said.row), d.stamp));
      await record(d, view, taken.entries);
      return taken.said;
    }),
});
