import { z } from "zod";
import { listSchema, quantitySchema, setSchema } from "../set/describe";
import {
  caseStates,
  describedLists,
  faultActs,
  formatName,
  formatVersion,
  powerStates,
  readingKinds,
  readingStates,
  thermalStates,
} from "./format";

/**
 * The job on disk: the set as it was first described, and everything recorded since, in order. Entries are only ever added; a correction
 * supersedes an earlier entry, which stays. Unknown keys are kept. SI numbers.
 */

const number = z.number("a finite number");
/** Bounds are generous: they stop what no bench writes. Common practice, no source. */
const text = z.string("a text").max(200_000, "at most 200,000 characters");
const word = z.string("a text").max(500, "at most 500 characters");
const name = word.min(1, "a name that is not empty").refine((s) => s.trim() !== "", "a name that is not empty");
const day = z
  .string()
  .max(40)
  .refine((s) => !Number.isNaN(Date.parse(s)), "a date and time");

const columnsSchema = z.record(word, z.array(number).max(4_000_000, "at most 4,000,000 numbers in a column"));
export const instrumentSchema = z.looseObject({
  id: name,
  kind: text,
  label: text,
  ohmsPerVolt: number.optional(),
  ranges: z.array(text),
  /** relative standard uncertainty of a reading, or in dB for level instruments */
  uncertainty: text,
  lastCheck: text,
  offset: text,
});
export const readingSchema = z.looseObject({
  id: name,
  as: z.enum(readingKinds),
  state: z.enum(readingStates),
  step: text,
  stage: text,
  instrument: text,
  thermal: z.enum(thermalStates),
  lineVoltage: quantitySchema.optional(),
  invented: text.optional(),
  /** zero beats: the band of the set, and what the main dial stood at for its bandspread scale */
  band: text.optional(),
  setPoint: text.optional(),
  file: z.looseObject({ name: text, hash: text }),
  columns: columnsSchema,
  figures: z.array(z.looseObject({ name: text, text, quantity: quantitySchema.optional(), dimension: text.optional() })),
  warnings: z.array(text),
});
export const estimateSchema = z.looseObject({
  id: name,
  names: z.array(text),
  values: z.array(number),
  logarithmic: z.array(z.boolean()),
  covariance: z.array(z.array(number)),
  fromReadings: z.array(text),
  model: text,
});
const dueSchema = z.looseObject({
  target: text,
  makes: z.enum(["redo", "check"]),
  task: text,
  why: text,
  after: text.optional(),
  amount: text.optional(),
});
/** One part: what it is, as marked or stated, as measured, what it may bear, how it lies, and a photograph by the hash of its file. */
const partSchema = z.looseObject({
  kind: word,
  value: quantitySchema.optional(),
  measured: quantitySchema.optional(),
  rated: quantitySchema.optional(),
  words: text,
  dress: text,
  photo: word.optional(),
});
const answerRecordSchema = z.looseObject({
  sheet: text,
  version: z.number(),
  seed: z.number(),
  draws: z.number(),
  headline: text,
  results: z.record(text, text),
});

/** When and by whom something was brought in from elsewhere, be it from another job of this store: it says so, and proves nothing here. */
const broughtInSchema = z.looseObject({ at: day, by: word, /** the job that it was copied from */ copyOf: word.optional() });
export type BroughtIn = z.infer<typeof broughtInSchema>;
const common = {
  id: name,
  at: day,
  who: word,
  broughtIn: broughtInSchema.optional(),
  partOf: name.optional(),
  /** the last entry that whoever recorded this had before them, where several work on one job */
  seen: name.optional(),
  /** when it came in, where a bench held it for more than a minute: `at` is then when it was done, as that bench's clock told it */
  received: day.optional(),
};
export const entrySchema = z.discriminatedUnion("kind", [
  z.looseObject({ ...common, kind: z.literal("instrument"), instrument: instrumentSchema }),
  z.looseObject({ ...common, kind: z.literal("reading"), reading: readingSchema }),
  z.looseObject({ ...common, kind: z.literal("estimate"), estimate: estimateSchema, note: text }),
  z.looseObject({
    ...common,
    kind: z.literal("values"),
    values: z.record(word, quantitySchema),
    why: text,
    /** estimate that they are of */ fit: name.optional(),
  }),
  z.looseObject({ ...common, kind: z.literal("fact"), path: word, value: text, why: text }),
  /** rows that a person typed, in SI and words, by the columns of their address: they take the place of the whole list */
  z.looseObject({ ...common, kind: z.literal("rows"), path: word, rows: listSchema, why: text }),
  z.looseObject({
    ...common,
    kind: z.literal("chassis"),
    state: z.enum(["isolated", "live", "live-proved-dead", "unstated"]),
    /** what was measured, SI, by name: ohms, voltsOneWay, voltsOtherWay */
    evidence: z.record(word, quantitySchema),
    meter: text,
    how: text,
    transformer: text,
    confirmed: z.boolean(),
  }),
  z.looseObject({
    ...common,
    kind: z.literal("work"),
    work: word,
    subject: word,
    note: text,
    makes: z.array(dueSchema),
    rests: z.array(answerRecordSchema),
  }),
  /** one act in the life of a fault: `place` is a path of the set, `rests` the entries that it rests on */
  z.looseObject({
    ...common,
    kind: z.literal("fault"),
    fault: name,
    does: z.enum(faultActs),
    place: word,
    words: text,
    cause: word.optional(),
    rests: z.array(word),
  }),
  /** a part taken out, and what came in its place, if anything did: of a piece of work */
  z.looseObject({
    ...common,
    kind: z.literal("part"),
    part: word,
    place: word,
    label: word,
    out: partSchema,
    came: partSchema.optional(),
    fault: name.optional(),
  }),
  /** what holds for the readings of a session until the next one: asked once */
  z.looseObject({
    ...common,
    kind: z.literal("sitting"),
    initials: word,
    meter: word,
    /** the meter that grids are read with, where it is another */
    gridMeter: word.optional(),
    method: text,
    thermal: z.enum(thermalStates).optional(),
    line: quantitySchema.optional(),
  }),
  /** how the set was left */
  z.looseObject({
    ...common,
    kind: z.literal("standing"),
    power: z.enum(powerStates),
    case: z.enum(caseStates),
    clipped: text,
    doing: text,
  }),
  /** what is waited for, until when, and for which step or fault; one that ends another names it */
  z.looseObject({ ...common, kind: z.literal("waiting"), for: text, until: day.optional(), about: word, ends: name.optional() }),
  /** a member of a list of the description put there or changed; taken out where none is given */
  z.looseObject({
    ...common,
    kind: z.literal("described"),
    list: z.enum(describedLists),
    member: word,
    as: z.looseObject({}).nullable(),
    /** the member a new one goes after */
    after: word.optional(),
    why: text,
  }),
  z.looseObject({ ...common, kind: z.literal("done"), step: word, note: text }),
  /** only the fields that it changes; an empty text empties one */
  z.looseObject({ ...common, kind: z.literal("form"), form: word, fields: z.record(word, text) }),
  z.looseObject({ ...common, kind: z.literal("attachment"), name: word, hash: word, media: word, note: text }),
  z.looseObject({ ...common, kind: z.literal("correction"), supersedes: word, why: text }),
]);
/** All of a job but its entries. */
export const headSchema = z.looseObject({
  format: z.literal(formatName),
  version: z.literal(formatVersion),
  id: z.string().min(1),
  name: z.string().min(1).max(80),
  created: z.string(),
  broughtIn: broughtInSchema.optional(),
  /** files of the job whose bytes were removed once they had been kept long enough */
  clearedOut: z.array(z.looseObject({ hash: word, name: word, media: word, at: z.string(), who: word })).optional(),
  set: setSchema,
});
export const jobSchema = headSchema.extend({ entries: z.array(entrySchema) });
export type Entry = z.infer<typeof entrySchema>;
export type JobDocument = z.infer<typeof jobSchema>;
export type Reading = z.infer<typeof readingSchema>;
export type Instrument = z.infer<typeof instrumentSchema>;
export type EntryOf<K extends Entry["kind"]> = Extract<Entry, { kind: K }>;
export type Due = z.infer<typeof dueSchema>;
export type AnswerRecord = z.infer<typeof answerRecordSchema>;

/** The format as JSON Schema, generated from the definition that validates it. */
export const jobJsonSchema = (): unknown => z.toJSONSchema(jobSchema, { io: "input", unrepresentable: "any" });
