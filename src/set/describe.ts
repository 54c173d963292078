import { z } from "zod";
import { origins, type Quantity } from "../units/quantity";
import { canLeaves, filterLeaves } from "./strip";

/** The description of a set, as it stands in a job and on disk. Unknown keys are kept. SI numbers. */
const finite = z.number().refine(Number.isFinite, "a finite number");
const size = finite.min(0);
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

const leavesOf = (names: object) =>
  z.looseObject(Object.fromEntries(Object.keys(names).map((n) => [n, quantitySchema])) as Record<string, z.ZodType<Quantity>>);
const stripSchema = z.looseObject({
  intermediateFrequency: quantitySchema,
  cans: z
    .array(leavesOf(canLeaves).extend({ label: z.string() }))
    .min(1)
    .max(8),
  filter: leavesOf(filterLeaves).nullable(),
});

export const stageKinds = [
  "antenna",
  "rf",
  "mixer",
  "oscillator",
  "filter",
  "can",
  "if-tube",
  "detector",
  "avc",
  "bfo",
  "audio",
  "speaker",
  "supply",
] as const;
export type StageKind = (typeof stageKinds)[number];

export const chassisFacts = ["isolated", "live", "unstated"] as const;

/** What stands between a live chassis and the line: `proved-dead` means an isolation transformer is recorded and the chassis measured. */
export const isolationFacts = ["none", "transformer-recorded", "proved-dead"] as const;

export const setSchema = z.looseObject({
  title: z.string(),
  pattern: z.string(),
  /** what the reader should know of where this description comes from */
  note: z.string(),
  chassis: z.looseObject({ state: z.enum(chassisFacts), isolation: z.enum(isolationFacts), note: z.string() }),
  line: z.looseObject({ voltage: quantitySchema, frequency: quantitySchema, highRatio: quantitySchema }),
  plateWatts: quantitySchema,
  supplies: z.looseObject({
    rectifier: z.string(),
    secondaryVoltage: quantitySchema,
    plateFeedResistance: quantitySchema,
    nodes: z.array(z.looseObject({ id: z.string(), label: z.string(), volts: quantitySchema })),
  }),
  stages: z.array(
    z.looseObject({ id: z.string(), kind: z.enum(stageKinds), label: z.string(), part: z.string(), steps: z.array(z.string()) }),
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
      state: z.enum(["planned", "fitted", "set"]),
      values: z.record(z.string(), quantitySchema),
      choices: z.record(z.string(), z.string()),
    }),
  ),
});
export type SetDescription = z.infer<typeof setSchema>;
export type Fitting = SetDescription["fittings"][number];

const isQuantity = (x: unknown): x is Quantity => typeof x === "object" && x !== null && "value" in x && "spread" in x && "origin" in x;

/** A member that an object has itself: never one of its prototype, whatever a path may say. */
const own = (o: unknown, key: string): unknown =>
  typeof o === "object" && o !== null && Object.hasOwn(o, key) ? (o as Record<string, unknown>)[key] : undefined;

/**
 * What stands at a dotted path of a set: arrays are entered by the id of their members, a fitting's values and choices by their name.
 *
 * @param set the set
 * @param path such as `line.voltage`, `fittings.qm.cableLength`, `supplies.nodes.b1.volts`
 * @returns whatever is there; undefined where nothing is
 * @source house frame
 */
export function lookUp(set: SetDescription, path: string): unknown {
  let here: unknown = set;
  for (const key of path.split(".")) {
    if (Array.isArray(here)) here = here.find((x) => (x as { id?: string }).id === key);
    else if (typeof here === "object" && here !== null) {
      here = own(here, key) ?? own(own(here, "values"), key) ?? own(own(here, "choices"), key);
    } else return undefined;
  }
  return here;
}

export const quantityAt = (set: SetDescription, path: string): Quantity | undefined => {
  const x = lookUp(set, path);
  return isQuantity(x) ? x : undefined;
};

/** A copy of the set with the value at a path replaced; undefined where the path leads nowhere that may be set. */
export function withValue(set: SetDescription, path: string, value: unknown): SetDescription | undefined {
  const copy = structuredClone(set);
  return putValue(copy, path, value) ? copy : undefined;
}

/** Replaces the value at a path of a set that nobody else holds; false where the path leads nowhere that may be set. */
export function putValue(set: SetDescription, path: string, value: unknown): boolean {
  const strip = /^strip\.can(\d+)\.(\w+)$/.exec(path);
  const keys = strip ? ["strip", "cans", String(Number(strip[1]) - 1), strip[2]] : path.split(".");
  let here: unknown = set;
  for (const key of keys.slice(0, -1)) {
    if (Array.isArray(here)) here = /^\d+$/.test(key) ? here[Number(key)] : here.find((x) => (x as { id?: string }).id === key);
    else here = own(here, key);
    if (typeof here !== "object" || here === null) return false;
  }
  const holder = here as Record<string, unknown>;
  const last = keys[keys.length - 1];
  const inValues = holder.values as Record<string, unknown> | undefined;
  const inChoices = holder.choices as Record<string, unknown> | undefined;
  if (last === "__proto__") return false;
  if (inValues && !Object.hasOwn(holder, last) && (isQuantity(value) || Object.hasOwn(inValues, last))) inValues[last] = value;
  else if (inChoices && !Object.hasOwn(holder, last) && typeof value === "string") inChoices[last] = value;
  else if (Object.hasOwn(holder, last)) holder[last] = value;
  else return false;
  return true;
}
