import { z } from "zod";
import type { EntryOf } from "../../job/document";
import { thermalStates } from "../../job/format";
import { satDown } from "../../job/sitting";
import { InputError, orThrow } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { openJob } from "../actions";
import { declare, field, job, nothing } from "../declare";
import { record } from "../record";

/** A line is never read in anything but volts: a bare number is of them. */
const inVolts = (said: string): string => (Number.isFinite(Number(said)) ? `${said} V` : said);
const words = z.string().max(200).default("");
export const sitting = declare({
  name: "sitting",
  says: "sit down: who measures, with which meter, warm or cold, on what line; carried through to every reading of the session",
  example:
    'fettle sitting "Kitchen set" --initials JM --meter "20 kohm/V, ranges 2.5 10 50 250 500" --grid-meter "11 Mohm" --thermal cold --line "121 V"',
  records: true,
  takes: z.object({
    job: job(),
    initials: field(z.string().max(20).default(""), "--initials <who>", "who measures; as the last time where nothing is said"),
    meter: field(
      words,
      "--meter <text>",
      "meter that readings are taken with, with its ranges, if it has them; as the last time where nothing is said",
    ),
    gridMeter: field(
      words,
      "--grid-meter <text>",
      "meter that grids are read with, where it is another; as the last time where nothing is said",
    ),
    method: field(words, "--method <text>", "method, if it is always the same"),
    thermal: field(z.enum(thermalStates).optional(), "--thermal <state>", "the set's state"),
    line: field(words, "--line <volts>", "line at the outlet"),
  }),
  here: nothing,
  act: (said, { desk }) =>
    desk(async (d) => {
      const { at, who, newId } = d.stamp;
      const volts = said.line === "" ? undefined : orThrow(parseQuantity(inVolts(said.line), "voltage", "--line"));
      if (volts && !(volts.value > 0 && volts.value <= 500))
        throw new InputError([{ path: "--line", code: "out-of-range", read: said.line, expected: "volts of a line, at most 500 V" }]);
      const line = volts && { ...volts, origin: "measured" as const, source: said.meter || "read at the outlet" };
      const view = await openJob(d, said.job);
      const entry: EntryOf<"sitting"> = { id: newId(), at, who, kind: "sitting", ...orThrow(satDown(view, who, { ...said, line })) };
      return { ...(await record(d, view, [entry])), sitting: entry };
    }),
  routes: [
    { method: "POST", may: "bench", path: "/api/jobs/:name/sitting", body: "json", gives: ({ revision }) => ({ json: { revision } }) },
  ],
});
