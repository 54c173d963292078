import { z } from "zod";
import { orThrow } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { openJob } from "../actions";
import { declare, field, job, nothing } from "../declare";
import { record } from "../record";

export const instrument = declare({
  name: "instrument",
  says: "register an instrument that readings may name",
  example: 'fettle instrument "Kitchen set" dmm --kind "DC volts" --label "bench multimeter" --uncertainty "0.5 % + 2 digits"',
  records: true,
  takes: z.object({
    job: job(),
    id: field(z.string(), "<id>", "short name for use in readings"),
    kind: field(z.string(), "--kind <text>", "what it measures"),
    label: field(z.string(), "--label <text>", "what it is", { unsaid: "" }),
    ohmsPerVolt: field(z.string().optional(), "--ohms-per-volt <n>", "load of a pointer meter"),
    ranges: field(z.array(z.string()), "--range <text>", "a range (repeat as needed)", { words: (typed) => [...typed], unsaid: [] }),
    uncertainty: field(z.string(), "--uncertainty <text>", "its uncertainty, as the maker or a check states it", { unsaid: "not stated" }),
    lastCheck: field(z.string(), "--last-check <date>", "when it was last checked", { unsaid: "not stated" }),
    offset: field(z.string(), "--offset <text>", "known offset", { unsaid: "none known" }),
  }),
  here: nothing,
  act: ({ job: name, ohmsPerVolt: load, ...said }, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, name);
      const ohmsPerVolt = load === undefined ? {} : { ohmsPerVolt: orThrow(parseQuantity(load, "resistance", "--ohms-per-volt")).value };
      const { newId, at, who } = d.stamp;
      const registered = { ...said, label: said.label || said.id, ...ohmsPerVolt };
      await record(d, view, [{ id: newId(), at, who, kind: "instrument", instrument: registered }]);
    }),
  routes: [
    { method: "POST", may: "bench", path: "/api/jobs/:name/instrument", body: "json", gives: (_, said) => ({ json: { id: said.id } }) },
  ],
});
