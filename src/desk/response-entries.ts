import type { Reading } from "../job/document";
import type { readingStates } from "../job/format";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import type { ResponsePoint } from "../readings/sound/response";
import { plain } from "./read-in/figures";
import { soundReading } from "./read-in/sound-reading";
import type { ResponseTold } from "./response";

/** What an audio response is called among a job's readings. */
const named = "audio response, points";
/** An audio response as a reading: its points, and where it ends. */
export function audioReading(view: JobView, told: ResponseTold, state: (typeof readingStates)[number], stamp: Stamp): Reading {
  const [heard] = told.heard;
  const end = (what: string, downDb: number, edge: { readonly hz: number; readonly uHz: number } | undefined) =>
    edge ? [plain(`audio, ${downDb} dB down, ${what} end`, "frequency", edge.hz, heard.name, edge.uHz)] : [];
  return soundReading(
    view,
    {
      state,
      step: "33b",
      file: { name: heard.name, hash: "" },
      columns: {
        seconds: [heard.health.secondsCount],
        sampleRateHz: [heard.head.sampleRateHz],
        frequencyHz: told.points.map((p) => p.hz),
        levelDb: told.points.map((p) => p.levelDb),
        levelUDb: told.points.map((p) => p.uDb),
      },
      figures: [
        plain(told.by === "envelope" ? "whole set's response, points" : named, "ratio", told.points.length, heard.name),
        ...told.ends.flatMap((e) => [...end("low", e.downDb, e.low), ...end("high", e.downDb, e.high)]),
      ],
      warnings: [...told.says, ...told.warnings],
    },
    stamp,
  );
}
/** The latest audio response of a job, of its audio stages alone. */
export function audioKept(view: Pick<JobView, "readings">): readonly ResponsePoint[] | undefined {
  const { columns } = view.readings.filter((r) => r.figures.some((f) => f.name === named)).at(-1) ?? {};
  return columns?.frequencyHz?.map((hz, i) => ({ hz, levelDb: columns.levelDb[i], uDb: columns.levelUDb[i] }));
}
