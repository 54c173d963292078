import { z } from "zod";
import { quantitySchema, setSchema } from "../set/describe";
import { bad, good, type Read } from "../units/issue";

/**
 * The job on disk: the set as it was first described, and everything recorded since, in order. Entries are only ever added; a correction
 * supersedes an earlier entry, which stays. Unknown keys are kept. SI numbers.
 */
export const formatName = "fettle-job";
export const formatVersion = 1;

const number = z.number().refine(Number.isFinite, "a finite number");
export const readingStates = ["as-found", "as-left"] as const;
export const readingKinds = ["if-sweep", "sweep", "resonance", "recording", "table", "dial"] as const;
export const thermalStates = ["cold", "warming", "warm"] as const;

const columnsSchema = z.record(z.string(), z.array(number));
export const instrumentSchema = z.looseObject({
  id: z.string().min(1),
  kind: z.string(),
  label: z.string(),
  ohmsPerVolt: number.optional(),
  ranges: z.array(z.string()),
  /** relative standard uncertainty of a reading, or in dB for level instruments */
  uncertainty: z.string(),
  lastCheck: z.string(),
  offset: z.string(),
});
export const readingSchema = z.looseObject({
  id: z.string().min(1),
  as: z.enum(readingKinds),
  state: z.enum(readingStates),
  step: z.string(),
  stage: z.string(),
  instrument: z.string(),
  thermal: z.enum(thermalStates),
  lineVoltage: quantitySchema.optional(),
  invented: z.string().optional(),
  /** zero beats: the band of the set, and what the main dial stood at for its bandspread scale */
  band: z.string().optional(),
  setPoint: z.string().optional(),
  file: z.looseObject({ name: z.string(), hash: z.string() }),
  columns: columnsSchema,
  figures: z.array(
    z.looseObject({ name: z.string(), text: z.string(), quantity: quantitySchema.optional(), dimension: z.string().optional() }),
  ),
  warnings: z.array(z.string()),
});
export const estimateSchema = z.looseObject({
  id: z.string().min(1),
  names: z.array(z.string()),
  values: z.array(number),
  logarithmic: z.array(z.boolean()),
  covariance: z.array(z.array(number)),
  fromReadings: z.array(z.string()),
  model: z.string(),
});
const dueSchema = z.looseObject({
  target: z.string(),
  makes: z.enum(["redo", "check"]),
  task: z.string(),
  why: z.string(),
  after: z.string().optional(),
  amount: z.string().optional(),
});
const answerRecordSchema = z.looseObject({
  sheet: z.string(),
  version: z.number(),
  seed: z.number(),
  draws: z.number(),
  headline: z.string(),
  results: z.record(z.string(), z.string()),
});

const common = { id: z.string().min(1), at: z.string(), who: z.string() };
export const entrySchema = z.discriminatedUnion("kind", [
  z.looseObject({ ...common, kind: z.literal("instrument"), instrument: instrumentSchema }),
  z.looseObject({ ...common, kind: z.literal("reading"), reading: readingSchema }),
  z.looseObject({ ...common, kind: z.literal("estimate"), estimate: estimateSchema, note: z.string() }),
  z.looseObject({ ...common, kind: z.literal("values"), values: z.record(z.string(), quantitySchema), why: z.string() }),
  z.looseObject({
    ...common,
    kind: z.literal("chassis"),
    state: z.enum(["isolated", "live", "live-proved-dead", "unstated"]),
    /** what was measured, SI, by name: ohms, voltsOneWay, voltsOtherWay */
    evidence: z.record(z.string(), quantitySchema),
    meter: z.string(),
    how: z.string(),
    transformer: z.string(),
    confirmed: z.boolean(),
  }),
  z.looseObject({ ...common, kind: z.literal("fact"), path: z.string(), value: z.string(), why: z.string() }),
  z.looseObject({
    ...common,
    kind: z.literal("work"),
    work: z.string(),
    subject: z.string(),
    note: z.string(),
    makes: z.array(dueSchema),
    rests: z.array(answerRecordSchema),
  }),
  z.looseObject({ ...common, kind: z.literal("done"), step: z.string(), note: z.string() }),
  z.looseObject({ ...common, kind: z.literal("form"), form: z.string(), fields: z.record(z.string(), z.string()) }),
  z.looseObject({ ...common, kind: z.literal("attachment"), name: z.string(), hash: z.string(), media: z.string(), note: z.string() }),
  z.looseObject({ ...common, kind: z.literal("correction"), supersedes: z.string(), why: z.string() }),
]);
export const jobSchema = z.looseObject({
  format: z.literal(formatName),
  version: z.literal(formatVersion),
  id: z.string().min(1),
  name: z.string().min(1).max(80),
  created: z.string(),
  set: setSchema,
  entries: z.array(entrySchema),
});
export type Entry = z.infer<typeof entrySchema>;
export type JobDocument = z.infer<typeof jobSchema>;
export type Reading = z.infer<typeof readingSchema>;
export type Instrument = z.infer<typeof instrumentSchema>;
export type EntryOf<K extends Entry["kind"]> = Extract<Entry, { kind: K }>;
export type Due = z.infer<typeof dueSchema>;
export type AnswerRecord = z.infer<typeof answerRecordSchema>;

export type Migration = (old: Record<string, unknown>) => Record<string, unknown>;
/** From version n to n + 1, by n. */
const migrations: Readonly<Record<number, Migration>> = {};

/** Brings a job's data up to a version, one step at a time; undefined where a step is missing. */
export function migrate(
  job: Record<string, unknown>,
  by: Readonly<Record<number, Migration>>,
  to: number,
): Record<string, unknown> | undefined {
  let out = job;
  for (let v = Number(job.version); v < to; v++) {
    if (!by[v]) return undefined;
    out = { ...by[v](out), version: v + 1 };
  }
  return out;
}

/**
 * Reads a job from data of unknown shape; brings an old version up to date; refuses a newer one.
 *
 * @param data parsed JSON
 * @param path what it is called in an error
 * @returns the job, or the located issue
 * @source house format, docs/job-format.md
 */
export function readJob(data: unknown, path = "job.json"): Read<JobDocument> {
  if (typeof data !== "object" || data === null || Array.isArray(data))
    return bad(path, "not-a-job", JSON.stringify(data) ?? "nothing", "a job as Fettle exports it");
  const job = data as Record<string, unknown>;
  if (job.format !== formatName) return bad(`${path}.format`, "not-a-job", String(job.format), `"${formatName}"`);
  if (typeof job.version !== "number" || !Number.isInteger(job.version) || job.version < 1)
    return bad(`${path}.version`, "bad-version", String(job.version), "a version number from 1");
  if (job.version > formatVersion)
    return bad(
      `${path}.version`,
      "newer-version",
      String(job.version),
      `at most ${formatVersion}: this job was written by a newer Fettle; update this one`,
    );
  const current = migrate(job, migrations, formatVersion);
  if (!current) return bad(`${path}.version`, "bad-version", String(job.version), `a version from 1 to ${formatVersion}`);
  const r = jobSchema.safeParse(current);
  if (r.success) return good(r.data);
  const first = r.error.issues[0];
  const read = first.path.reduce<unknown>((d, k) => (d as Record<PropertyKey, unknown> | undefined)?.[k], current);
  return bad([path, ...first.path.map(String)].join("."), first.code, JSON.stringify(read)?.slice(0, 60) ?? "nothing", first.message);
}

/** The format as JSON Schema, generated from the definition that validates it. */
export const jobJsonSchema = (): unknown => z.toJSONSchema(jobSchema, { io: "input", unrepresentable: "any" });
