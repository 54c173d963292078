import { z } from "zod";
import type { Entry } from "../job/document";
import type { readingStates } from "../job/format";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { bandNames } from "../readings/sound/crackle";
import type { Device } from "../readings/sound/device";
import { InputError } from "../units/issue";
import { standardUncertainty } from "../units/quantity";
import { crackleReading } from "./crackle-entries";
import { clockOf } from "./heard";
import { humReading } from "./hum-entries";
import { headSchema, healthSchema } from "./live-heard";
import { mayRise, noiseEntries } from "./noise-entries";
import { audioReading } from "./response-entries";
import { noiseTakes, responseTake, type Take, type TakeKind, type Takes } from "./takes";

/** Recordings as the page sends what they came to. */

const number = z.number();
const hum = z.object({
  nominalHz: number,
  mains: z.object({ hz: number, uHz: number }).optional(),
  lines: z.array(z.object({ order: number, hz: number, rmsDbfs: number, uDb: number, stands: z.boolean() })).max(20),
  allRmsDbfs: number.optional(),
  soundRmsDbfs: number,
  whole: z.object({ rmsDbfs: number, uDb: number.nonnegative() }).optional(),
  framesCount: number,
});
const noise = z.object({
  band: z.object({ fromHz: number, toHz: number }),
  secondsCount: number.positive(),
  rmsDbfs: number,
  uDb: number,
  deviceUDb: number.optional(),
  tone: z.object({ hz: number, rmsDbfs: number, sinadDb: number, uDb: number, secondHz: number.optional() }).optional(),
});
const event = z.object({
  kind: z.enum(["burst", "jump"]),
  atS: number,
  bands: z.array(z.enum(bandNames)).max(3),
  db: number,
  lastsS: number,
});
const crackle = z.object({ secondsCount: number.positive(), events: z.array(event).max(100_000), evenlyHz: number.optional() });
const spectrum = z.object({
  binHz: number.positive(),
  power: z
    .array(number.nonnegative())
    .max(100_000)
    .transform((p) => Float64Array.from(p)),
  freedom: number.positive(),
  secondsCount: number.positive(),
});
const take = z
  .object({
    name: z.string().min(1).max(120),
    head: headSchema,
    health: healthSchema,
    clock: z.string().max(80),
    told: z.object({ hum: hum.optional(), noise: noise.optional(), crackle: crackle.optional(), spectrum: spectrum.optional() }),
  })
  .transform(({ name, head, health, clock: typed, told }): Take => {
    const clock = clockOf(typed === "" ? undefined : typed);
    const warnings = [...head.warnings, ...health.warnings];
    return { told, heard: { name, head, health, clock, clockU: standardUncertainty(clock.spread), warnings } };
  });
/** A sound device's response by its loop-back. */
export const loopSchema = z.array(z.object({ hz: number.positive(), levelDb: number, uDb: number.nonnegative() })).max(2000);
export const takesSchema = z.record(z.string().max(20), take);

interface Said {
  readonly kind: TakeKind;
  readonly takes: Takes;
  readonly state: (typeof readingStates)[number];
  readonly gain?: string | undefined;
  readonly avc?: string | undefined;
  readonly level?: string | undefined;
  readonly mode?: "AM" | "CW or SSB" | undefined;
  readonly depth?: string | undefined;
  readonly loop?: Device | undefined;
}
/**
 * Recordings as entries of a job, the reading first; none where the first of them is not there.
 *
 * @throws {InputError} where they can't be compared
 */
export function takeEntries(view: JobView, said: Said, stamp: Stamp): readonly Entry[] {
  const { takes, state } = said;
  const entry = (reading: Extract<Entry, { kind: "reading" }>["reading"]): readonly Entry[] => [
    { id: stamp.newId(), at: stamp.at, who: stamp.who, kind: "reading", reading },
  ];
  switch (said.kind) {
    case "hum": {
      const of = (id: string) => {
        const t = takes[id];
        return t?.told.hum && { heard: t.heard, told: t.told.hum };
      };
      const normal = of("normal");
      return normal
        ? entry(humReading(view, { normal, atZero: of("atZero"), carrier: of("carrier"), full: of("full") }, state, stamp))
        : [];
    }
    case "crackle": {
      const of = (id: string) => {
        const t = takes[id];
        return t?.told.crackle && { heard: t.heard, told: t.told.crackle };
      };
      const normal = of("normal");
      return normal ? entry(crackleReading(view, { normal, without: of("without"), atZero: of("atZero") }, state, stamp)) : [];
    }
    case "noise": {
      const says = noiseTakes(takes);
      if (!says) return [];
      if (says.dummy) inFields(() => mayRise(said));
      return inFields(() => noiseEntries(view, { says, said }, stamp));
    }
    case "response": {
      const told = responseTake(takes, "audio", said.loop) ?? responseTake(takes, "envelope", said.loop);
      return told ? entry(audioReading(view, told, state, stamp)) : [];
    }
  }
}
/** What is missing is named as a field of the page, not as an option of the command line. */
export function inFields<T>(work: () => T): T {
  try {
    return work();
  } catch (e) {
    throw e instanceof InputError ? new InputError(e.issues.map((i) => ({ ...i, path: i.path.replace(/^--/, "") }))) : e;
  }
}
