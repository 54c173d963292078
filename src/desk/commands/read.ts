import { z } from "zod";
import { readingKinds, readingStates, thermalStates } from "../../job/format";
import { sittingAt } from "../../job/sitting";
import { orThrow } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { openJob } from "../actions";
import { atChassis, declare, field, fileSchema, job, nothing } from "../declare";
import type { ReadIn, ReadingAsk } from "../read-in/asking";
import { record } from "../record";

const takes = z.object({
  job: job(),
  file: field(fileSchema, "<file>", "file to read", { file: true }),
  as: field(z.enum(readingKinds), "--as <kind>", "what it is; an if-sweep is also fitted"),
  state: field(z.enum(readingStates), "--state <state>", "when it was taken"),
  step: field(z.string().optional(), "--step <id>", "step of the job that it belongs to"),
  stage: field(z.string().optional(), "--stage <id>", "stage of the set that it belongs to"),
  instrument: field(z.string().optional(), "--instrument <id>", "instrument of this job that took it"),
  thermal: field(z.enum(thermalStates).optional(), "--thermal <state>", "thermal state of the set; as the sitting has it, else warm"),
  lineVoltage: field(z.string().optional(), "--line <volts>", "line voltage when it was taken"),
  unit: field(z.string().optional(), "--unit <unit>", "unit of the frequencies, where the file has no heading"),
  sMeterLaw: field(z.enum(["iaru"]).optional(), "--s-meter <law>", "state the law of S units"),
  band: field(z.string().optional(), "--band <id>", "band of the set that zero beats are of, such as 80"),
  setPoint: field(z.string().optional(), "--set-point <text>", "main dial setting for the bandspread scale"),
  fit: field(z.enum(["yes", "no"]).optional(), "--no-fit", "keep the strip's model as it is", { given: "no" }),
  record: field(z.enum(["yes", "no"]), "--dry-run", "show what would be recorded, record nothing", { given: "no", unsaid: "yes" }),
});

/** What a person says of a file; what he does not say, as the sitting has it. */
function askOf({ as, state, ...said }: z.output<typeof takes>, sitting: ReturnType<typeof sittingAt>): ReadingAsk {
  const line = said.lineVoltage === undefined ? undefined : orThrow(parseQuantity(said.lineVoltage, "voltage", "lineVoltage"));
  return {
    as,
    state,
    withoutFit: said.fit === "no",
    ...(said.thermal ? { thermal: said.thermal } : {}),
    ...(said.step ? { step: said.step } : {}),
    ...(said.stage ? { stage: said.stage } : {}),
    ...(said.instrument ? { instrument: said.instrument } : {}),
    ...(said.band ? { band: said.band } : {}),
    ...(said.setPoint ? { setPoint: said.setPoint } : {}),
    ...(said.unit ? { frequencyUnit: said.unit } : {}),
    ...(said.sMeterLaw ? { sMeterLaw: said.sMeterLaw } : {}),
    ...(!line && sitting?.line ? { lineVoltage: sitting.line } : {}),
    ...(line ? { lineVoltage: { value: line.value, spread: line.spread, origin: "measured", source: "at the reading" } } : {}),
  };
}
/** What a fit came to, in the few figures that the page shows. */
const toldOf = ({ fit }: ReadIn) =>
  fit && {
    usedPoints: fit.usedPoints,
    rmsDb: fit.rmsDb,
    directionsCount: fit.directionsCount,
    unknownsCount: fit.leaves.length,
    warnings: fit.warnings,
  };

export const read = declare({
  name: "read",
  says: "read a file into a job: a sweep, a recording, a table",
  example: 'fettle read "Harbour club set" sweep.csv --as if-sweep --state as-found',
  records: true,
  takes,
  here: nothing,
  act: (said, at) =>
    at.desk(async (d) => {
      const view = await openJob(d, said.job);
      const { at: when, who } = d.stamp;
      const file = { ...said.file, name: said.file.name.slice(-120) || "file" };
      const given = { document: view.document, file, how: askOf(said, sittingAt(view, when)), signed: { at: when, who } };
      const read = await at.errands.run("read", given, at);
      const kept = said.record === "yes" ? { revision: (await record(d, view, read.entries, [read.file])).revision } : {};
      return { read, ...kept };
    }),
  routes: [
    {
      method: "POST",
      may: "bench",
      path: "/api/jobs/:name/read",
      joined: atChassis,
      body: "upload",
      gives: ({ read: r, ...kept }) => ({ json: { reading: r.reading, fit: toldOf(r), ...kept } }),
    },
  ],
});
