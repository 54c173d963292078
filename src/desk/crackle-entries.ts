import { crackleSays, perMinute } from "../infer/crackle/says";
import type { Reading } from "../job/document";
import type { readingStates } from "../job/format";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { type CrackleTold, crackleBands } from "../readings/sound/crackle";
import type { Heard } from "./heard";
import { plain } from "./read-in/figures";
import { soundReading } from "./read-in/sound-reading";

/** One recording's events. */
export interface CrackleOf {
  readonly heard: Heard;
  readonly told: CrackleTold;
}
export interface CrackleRecordings {
  readonly normal: CrackleOf;
  readonly without?: CrackleOf | undefined;
  readonly atZero?: CrackleOf | undefined;
}
const kinds = ["burst", "jump"] as const;
/** Events of the recordings as a reading: counts a minute, each event of the first, and what they suggest and can't tell. */
export function crackleReading(view: JobView, of: CrackleRecordings, state: (typeof readingStates)[number], stamp: Stamp): Reading {
  const { heard, told } = of.normal;
  const rates = (what: string, c: CrackleOf | undefined) =>
    c
      ? kinds.map((kind) => {
          const n = c.told.events.filter((e) => e.kind === kind).length;
          const each = perMinute(c.told, kind);
          // counts of chance events scatter by their square root
          const u = n > 0 ? each / Math.sqrt(n) : 60 / c.told.secondsCount;
          return plain(`${kind}s a minute${what}`, "ratio", each, c.heard.name, u);
        })
      : [];
  const events = told.events.slice(0, 10_000);
  return soundReading(
    view,
    {
      state,
      step: "29b",
      file: { name: heard.name, hash: "" },
      columns: {
        seconds: [told.secondsCount],
        sampleRateHz: [heard.head.sampleRateHz],
        timeS: events.map((e) => e.atS),
        levelDb: events.map((e) => e.db),
        lastsS: events.map((e) => e.lastsS),
        jump: events.map((e) => (e.kind === "jump" ? 1 : 0)),
        ...Object.fromEntries(crackleBands.map((b) => [`in ${b.name} band`, events.map((e) => (e.bands.includes(b.name) ? 1 : 0))])),
      },
      figures: [...rates("", of.normal), ...rates(", without antenna", of.without), ...rates(", volume at zero", of.atZero)],
      warnings: [
        ...heard.warnings,
        ...crackleSays({ normal: told, without: of.without?.told, atZero: of.atZero?.told }).map((f) => f.says),
      ],
    },
    stamp,
  );
}
