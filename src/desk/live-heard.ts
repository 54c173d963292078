import { z } from "zod";
import type { Reading } from "../job/document";
import { readingStates } from "../job/format";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { orThrow } from "../units/issue";
import { readJson } from "../units/json";
import { standardUncertainty } from "../units/quantity";
import { checked } from "./declare";
import { clockOf, type Heard } from "./heard";
import { decibel } from "./hum-entries";
import { noteQuestions } from "./note-entries";
import { soundReading } from "./read-in/sound-reading";

/** What the page heard of a live input, as it is sent to be kept. */

const number = z.number();
const seconds = z.array(number).max(400_000);
const reading = z.object({ atS: number, hz: number, uHz: number, peakDbfs: number });
const apart = z.object({ meanHz: number, uHz: number });
export const headSchema = z.object({
  sampleRateHz: z.number().positive(),
  channelsCount: z.number().int().positive(),
  heldAs: z.string().max(40),
  step: number,
  samplesCount: number.optional(),
  begun: z.string().max(40).optional(),
  warnings: z.array(z.string().max(500)).max(20),
});
export const healthSchema = z.object({
  secondsCount: z.number().positive(),
  peakDbfs: number,
  rmsDbfs: number,
  clippedCount: number,
  silent: z.boolean(),
  warnings: z.array(z.string().max(500)).max(20),
});
export const liveSchema = z.object({
  name: z.string().min(1).max(120),
  head: headSchema,
  health: healthSchema,
  /** as typed; empty where the device's clock was never measured */
  clock: z.string().max(80),
  note: z
    .object({
      tone: z.object({ readings: z.array(reading).max(400_000), meanHz: number, uHz: number }).optional(),
      apart: apart.optional(),
      swell: z.object({ hz: number, uHz: number }).optional(),
    })
    .optional(),
  peak: z
    .object({ timeS: seconds, levelDbfs: seconds, of: z.string().max(80), bestDb: number, underDb: number, passagesCount: number })
    .optional(),
});
export type LiveHeard = z.output<typeof liveSchema>;
/** What is said of it beside it. */
export const liveSaid = {
  state: z.enum(readingStates).default("as-left"),
  for: z.enum(noteQuestions).optional(),
  carrier: z.string().optional(),
  sideband: z.enum(["upper", "lower"]).optional(),
  after: z.string().default("0 s"),
};

/** What was sent, checked. */
export function liveOf(text: string): LiveHeard & { readonly heard: Heard } {
  const live = checked(liveSchema, orThrow(readJson(text, "heard")));
  const clock = clockOf(live.clock === "" ? undefined : live.clock);
  const warnings = [...live.head.warnings, ...live.health.warnings];
  const { name, head, health } = live;
  return { ...live, heard: { name, head, health, clock, clockU: standardUncertainty(clock.spread), warnings } };
}

/** A level that was watched, as a reading: best, how it was left, and the level against time. */
export function peakReading(
  view: JobView,
  { peak, heard }: ReturnType<typeof liveOf>,
  how: { readonly state: (typeof readingStates)[number]; readonly sound: string },
  stamp: Stamp,
): Reading {
  return soundReading(
    view,
    {
      state: how.state,
      step: "29b",
      file: { name: heard.name, hash: how.sound },
      columns: {
        seconds: [heard.health.secondsCount],
        sampleRateHz: [heard.head.sampleRateHz],
        timeS: peak?.timeS ?? [],
        levelDbfs: peak?.levelDbfs ?? [],
      },
      figures: peak
        ? [
            decibel(`best level of ${peak.of}, rms, re full scale`, peak.bestDb, 0, heard.name),
            decibel("left against the best", peak.underDb, 0, heard.name),
          ]
        : [],
      warnings: [...heard.warnings],
    },
    stamp,
  );
}
