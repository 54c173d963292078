import { z } from "zod";
import { orThrow } from "../../units/issue";
import { openJob } from "../actions";
import { chassisAct } from "../chassis-act";
import { declare, field, job, nothing } from "../declare";
import { record } from "../record";

const words = z.string().default("");
export const chassis = declare({
  name: "chassis",
  says: "record how the chassis is connected to the line, and what you measured; until then it counts as live",
  example:
    'fettle chassis "Harbour club set" isolated --ohms "22 Mohm" --meter "insulation tester, 500 V" --how "each blade to chassis, switch on; own transformer traced" --confirm isolated',
  records: true,
  takes: z.object({
    job: job(),
    state: field(z.string(), "<state>", "how the chassis is connected to the line, such as isolated"),
    ohms: field(words, "--ohms <value>", "set unplugged, switch on: ohms from each blade of the plug to the chassis, the lower of the two"),
    voltsOneWay: field(
      words,
      "--volts-one-way <value>",
      "behind an isolation transformer, set on: volts from chassis to earth across 1.5 kΩ",
    ),
    voltsOtherWay: field(words, "--volts-other-way <value>", "the same with the plug the other way round"),
    transformer: field(words, "--transformer <text>", "the line isolation transformer: its rating"),
    meter: field(words, "--meter <text>", "what it was measured with"),
    how: field(words, "--how <text>", "what you traced and how you measured it"),
    confirm: field(words, "--confirm <state>", "the state, typed again to confirm"),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const view = await openJob(d, said.job);
      const entry = orThrow(chassisAct(view, said, d.stamp));
      const { revision } = await record(d, view, [entry]);
      return { entry, revision, stands: (await openJob(d, said.job)).chassis };
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/chassis",
      body: "json",
      gives: ({ entry, revision }) => ({ json: { revision, id: entry.id } }),
    },
  ],
});
