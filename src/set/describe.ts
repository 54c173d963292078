import { z } from "zod";
import { origins, type Quantity } from "../units/quantity";
import { canLeaves, filterLeaves } from "./strip";
import { chassisFacts, fittingStates, isolationFacts, stageKinds } from "./words";

/** The description of a set, as it stands in a job and on disk. Unknown keys are kept. SI numbers. */
const finite = z.number("a finite number");
const size = finite.min(0, "zero or more");
const spreadSchema = z.discriminatedUnion("shape", [
  z.object({ shape: z.literal("exact") }),
  z.object({ shape: z.literal("normal"), u: size }),
  z.object({ shape: z.literal("rectangular"), half: size }),
  z.object({ shape: z.literal("triangular"), half: size }),
]);
export const quantitySchema: z.ZodType<Quantity> = z.looseObject({
  value: finite,
  spread: spreadSchema,
  origin: z.enum(origins),
  source: z.string(),
  joint: z.string().optional(),
});

const leavesOf = <K extends string>(names: Readonly<Record<K, unknown>>) =>
  z.looseObject(Object.fromEntries(Object.keys(names).map((n) => [n, quantitySchema])) as Record<K, z.ZodType<Quantity>>);
const stripSchema = z.looseObject({
  intermediateFrequency: quantitySchema,
  cans: z
    .array(leavesOf(canLeaves).extend({ label: z.string() }))
    .min(1)
    .max(8),
  filter: leavesOf(filterLeaves).nullable(),
});

/** One row as it is stored: SI numbers, and words where the column has words; what was left out is not there. */
const rowSchema = z.record(z.string(), z.union([finite, z.string()]));
export const listSchema = z.array(rowSchema).max(5000, "at most 5,000 rows");
export type StoredRow = z.infer<typeof rowSchema>;
/** What was kept of a band, a stage or the supplies beyond what is asked of each: by name. */
const keptSchema = {
  values: z.record(z.string(), quantitySchema).optional(),
  choices: z.record(z.string(), z.string()).optional(),
  lists: z.record(z.string(), listSchema).optional(),
};

export const setSchema = z.looseObject({
  title: z.string(),
  pattern: z.string(),
  /** what the reader should know of where this description comes from */
  note: z.string(),
  chassis: z.looseObject({ state: z.enum(chassisFacts), isolation: z.enum(isolationFacts), note: z.string() }),
  /** what is about the whole set and no part of its description, by topic */
  topics: z.record(z.string(), z.looseObject(keptSchema)).optional(),
  /** what nobody said and was taken as usual, by path: it stands until somebody says it */
  guessed: z.record(z.string(), z.looseObject({ is: z.string(), from: z.string() })).optional(),
  /** where the set is used and for what, stated once: whose band edges count, and what is sent */
  place: z.record(z.string(), z.string()).optional(),
  /** `voltage` is what the set is made for; `today` what a meter read at the outlet last */
  line: z.looseObject({
    voltage: quantitySchema,
    frequency: quantitySchema,
    highRatio: quantitySchema,
    today: quantitySchema.optional(),
  }),
  plateWatts: quantitySchema,
  supplies: z.looseObject({
    rectifier: z.string(),
    secondaryVoltage: quantitySchema,
    plateFeedResistance: quantitySchema,
    nodes: z.array(z.looseObject({ id: z.string(), label: z.string(), volts: quantitySchema })),
    ...keptSchema,
  }),
  stages: z.array(
    z.looseObject({
      id: z.string(),
      kind: z.enum(stageKinds),
      label: z.string(),
      part: z.string(),
      steps: z.array(z.string()),
      ...keptSchema,
    }),
  ),
  strip: stripSchema,
  adjusters: z.looseObject({ slugRange: quantitySchema, trimmerRange: quantitySchema }),
  audio: z.looseObject({ low: quantitySchema, high: quantitySchema }),
  bands: z.array(
    z.looseObject({
      id: z.string(),
      label: z.string(),
      low: quantitySchema,
      high: quantitySchema,
      oscillator: z.enum(["above", "below"]),
      spread: z.boolean(),
      ...keptSchema,
    }),
  ),
  tubes: z.array(z.looseObject({ socket: z.string(), type: z.string(), function: z.string(), stage: z.string() })),
  taps: z.array(z.looseObject({ id: z.string(), label: z.string(), stage: z.string(), node: z.string(), can: z.number().int().min(1) })),
  fittings: z.array(
    z.looseObject({
      id: z.string(),
      kind: z.string(),
      label: z.string(),
      tap: z.string(),
      /** offered: nobody asked for it yet */
      state: z.enum(fittingStates),
      values: z.record(z.string(), quantitySchema),
      choices: z.record(z.string(), z.string()),
      lists: z.record(z.string(), listSchema).optional(),
    }),
  ),
});
export type SetDescription = z.infer<typeof setSchema>;
export type Fitting = SetDescription["fittings"][number];
