import type { Reading } from "../job/document";
import type { readingStates } from "../job/format";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import type { HumTold } from "../readings/sound/hum";
import type { SidebandsTold } from "../readings/sound/sidebands";
import type { Heard } from "./heard";
import { soundReading } from "./read-in/sound-reading";

/** One recording's lines. */
export interface HumOf {
  readonly heard: Heard;
  readonly told: HumTold;
  /** on the beat of a carrier with the BFO, where there is one */
  readonly sidebands?: SidebandsTold | undefined;
}

interface Recordings {
  readonly normal: HumOf;
  readonly atZero?: HumOf | undefined;
  readonly carrier?: HumOf | undefined;
  readonly full?: HumOf | undefined;
}
/** A level as a reading tells it. */
export const decibel = (name: string, value: number, u: number, source: string): Reading["figures"][number] => ({
  name,
  dimension: "decibel",
  text: `${value.toFixed(1)} dB (${(value - 1.96 * u).toFixed(1)} to ${(value + 1.96 * u).toFixed(1)})`,
  quantity: { value, spread: u > 0 ? { shape: "normal", u } : { shape: "exact" }, origin: "measured", source },
});

/** Half the last digit that a level is told with, dB. */
const digitDb = 0.05;
/** Standard uncertainty of all lines that stand together, dB: each by its part of their power. */
function uOfAll(lines: HumTold["lines"]): number {
  const standing = lines.filter((l) => l.stands).map((l) => ({ power: 10 ** (l.rmsDbfs / 10), uDb: l.uDb }));
  const whole = standing.reduce((s, l) => s + l.power, 0);
  return Math.hypot(digitDb, ...standing.map((l) => (l.power / whole) * l.uDb));
}

/**
 * How far all hum lies under full output, both as they were ahead of the sound device where its response is undone.
 *
 * @param normal the recording of the hum
 * @param full the one at full output
 * @returns dB and its standard uncertainty; none where no hum stands
 */
export function underFull({ told }: HumOf, full: HumOf): { readonly db: number; readonly uDb: number } | undefined {
  if (told.allRmsDbfs === undefined) return undefined;
  const { rmsDbfs, uDb } = full.told.whole ?? { rmsDbfs: full.heard.health.rmsDbfs, uDb: 0 };
  return { db: rmsDbfs - told.allRmsDbfs, uDb: Math.hypot(uOfAll(told.lines), uDb) };
}
/** Lines of the recordings as a reading; the sounds stay in their files. */
export function humReading(view: JobView, of: Recordings, state: (typeof readingStates)[number], stamp: Stamp): Reading {
  const { heard } = of.normal;
  const under = of.full && underFull(of.normal, of.full);
  const lines = (what: string, h: HumOf | undefined) =>
    (h?.told.lines ?? [])
      .filter((l) => l.stands)
      .map((l) =>
        decibel(`hum at ${l.order * (h?.told.nominalHz ?? 0)} Hz${what}, rms, re full scale`, l.rmsDbfs, l.uDb, h?.heard.name ?? ""),
      );
  return soundReading(
    view,
    {
      state,
      step: "29b",
      file: { name: heard.name, hash: "" },
      columns: { seconds: [heard.health.secondsCount], sampleRateHz: [heard.head.sampleRateHz] },
      figures: [
        ...lines("", of.normal),
        ...lines(", volume at zero", of.atZero),
        ...lines(", on a carrier", of.carrier),
        ...(of.full && under ? [decibel("all hum, under full output", -under.db, under.uDb, of.full.heard.name)] : []),
      ],
      warnings: [...heard.warnings],
    },
    stamp,
  );
}
