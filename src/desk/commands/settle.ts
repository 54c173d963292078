import { z } from "zod";
import { crossedIn } from "../../job/crossed";
import { openJob } from "../actions";
import { declare, field, job, nothing } from "../declare";
import { record } from "../record";
import { settled } from "../settled";

export const settle = declare({
  name: "settle",
  says: "where two people wrote different values to one place, neither having seen the other's: list them, or say which one is right; both stay in the record",
  example: 'fettle settle "Harbour club set" line.voltage --take 5f0c',
  records: true,
  takes: z.object({
    job: job(),
    place: field(z.string().default(""), "[place]", "the place, as listed; all are listed if not given"),
    take: field(z.string().optional(), "--take <entry>", "id of the entry that is right, or how it begins; only listed if not given"),
  }),
  here: nothing,
  act: ({ job: name, place, take }, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, name);
      if (take === undefined) return { crossed: crossedIn(view).filter((c) => place === "" || c.key === place) };
      const { entries, says } = settled(view, { place, take }, d.stamp);
      await record(d, view, entries, [], { who: d.stamp.who, what: `settled: ${place}`, about: name });
      return { crossed: [], says };
    }),
  routes: [{ method: "POST", may: "keeper", path: "/api/jobs/:name/settle", body: "json", gives: (given) => ({ json: given }) }],
});
