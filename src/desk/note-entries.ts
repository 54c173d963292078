import type { Entry, Reading } from "../job/document";
import type { readingStates } from "../job/format";
import { declaredAt } from "../job/slots";
import type { JobView } from "../job/view";
import type { Stamp } from "../job/works";
import { thinned } from "../readings/drift-log";
import type { Range } from "../readings/sound/follow";
import { liveSound } from "../readings/sound/live";
import type { ToneTold } from "../readings/sound/note";
import { rowsToStore } from "../set/columns";
import { InputError, orThrow } from "../units/issue";
import { parseQuantity } from "../units/parse";
import { printInterval } from "../units/print";
import { assignment } from "./assignment";
import { beatOf, type NoteKept } from "./beat-words";
import { type Heard, hertz } from "./heard";
import { soundReading } from "./read-in/sound-reading";
import { hertzWithin } from "./tone-words";

/** Questions whose input a track gives. */
export const noteQuestions = ["drift", "marker-trim"] as const;
const steps: Readonly<Record<string, string>> = { drift: "30", "marker-trim": "28" };
/** A tone that is named lies within this share of its name, or within so many hertz. */
const nearShare = 0.05;
const nearHz = 30;

interface Typed {
  readonly near?: string | undefined;
  readonly from: string;
  readonly to: string;
  readonly against?: string | undefined;
  readonly every?: string | undefined;
}
/** Where a tone that is named is looked for. */
export const around = (hz: number): Range => {
  const reach = Math.max(nearHz, nearShare * hz);
  return { fromHz: Math.max(2, hz - reach), toHz: hz + reach };
};
/** How a tone is looked for, as it was typed. */
export function noteTellings(said: Typed): { readonly range: Range; readonly against?: Range; readonly everyS?: number } {
  const range =
    said.near === undefined ? { fromHz: hertz(said.from, "--from"), toHz: hertz(said.to, "--to") } : around(hertz(said.near, "--near"));
  if (!(range.fromHz < range.toHz))
    throw new InputError([{ path: "--to", code: "crossed", read: said.to, expected: `a frequency above ${said.from}` }]);
  const everyS = said.every === undefined ? undefined : orThrow(parseQuantity(said.every, "time", "--every")).value;
  if (everyS !== undefined && !(everyS >= 0.05 && everyS <= 60))
    throw new InputError([{ path: "--every", code: "out-of-range", read: said.every ?? "", expected: "a time from 50 ms to 60 s" }]);
  return {
    range,
    ...(said.against === undefined ? {} : { against: around(hertz(said.against, "--against")) }),
    ...(everyS === undefined ? {} : { everyS }),
  };
}

interface ToKeep {
  readonly told: NoteKept;
  readonly heard: Heard;
  /** hash of the sound where it is kept with the job */
  readonly sound?: string | undefined;
  readonly carrierHz?: number | undefined;
  readonly said: {
    readonly for?: (typeof noteQuestions)[number] | undefined;
    readonly state: (typeof readingStates)[number];
    readonly sideband?: "upper" | "lower" | undefined;
    readonly after: string;
  };
}

/**
 * A track as entries of a job: the reading, and the input of the question that it is for.
 *
 * @throws {InputError} where the question needs more than was said, or the recording does not hold it
 */
export function noteEntries(
  view: JobView,
  keep: ToKeep,
  stamp: Stamp,
): { readonly entries: readonly Entry[]; readonly says: readonly string[] } {
  const { said, heard } = keep;
  const why = `sound of ${heard.name}`;
  const reading = readingOf(view, keep, stamp);
  const entries: Entry[] = [{ id: stamp.newId(), at: stamp.at, who: stamp.who, kind: "reading", reading }];
  const where = keep.sound !== undefined ? "with it" : heard.head.heldAs === liveSound ? "left out" : "stays in its file";
  const says = [`the track, as reading ${reading.id}; the sound itself ${where}`];
  if (said.for === "drift") {
    entries.push(driftRows(keep, why, stamp));
    says.push("the drift log, as the warm-up's own readings");
  }
  if (said.for === "marker-trim") {
    const fitting = view.set.fittings.find((f) => f.kind === "marker-generator")?.id;
    if (!fitting)
      throw new InputError([
        { path: "--for", code: "no-fitting", read: "marker-trim", expected: "a job whose set has a marker generator" },
      ]);
    const beat = beatOf(keep.told);
    if (!beat) throw noTone(heard.name);
    const uHz = Math.hypot(beat.uHz, beat.hz * heard.clockU);
    const put = (name: string, text: string) =>
      entries.push(orThrow(assignment(view, `fittings.${fitting}.${name}`, text, { origin: "measured", why }, stamp)));
    put("beat", `${beat.hz} Hz u ${uHz} Hz`);
    put("method", beat.method);
    if (keep.carrierHz !== undefined) put("stationFrequency", `${keep.carrierHz} Hz`);
    says.push(`the marker's beat, ${hertzWithin(beat.hz, uHz)}, for its trimmer`);
  }
  return { entries, says };
}
const noTone = (name: string) =>
  new InputError([{ path: name, code: "no-tone", read: "no tone above the noise", expected: "a tone that can be followed" }]);

function readingOf(view: JobView, { told, heard, said, sound = "" }: ToKeep, stamp: Stamp): Reading {
  const { tone } = told;
  const column = (of: (r: ToneTold["readings"][number]) => number): number[] => (tone?.readings ?? []).map(of);
  const figure = (name: string, hz: number, uHz: number): Reading["figures"][number] => ({
    name,
    dimension: "frequency",
    text: printInterval(hz, hz - 1.96 * uHz, hz + 1.96 * uHz, "frequency"),
    quantity: { value: hz, spread: { shape: "normal", u: uHz }, origin: "measured", source: heard.name },
  });
  const sure = (hz: number, uHz: number): number => Math.hypot(uHz, hz * heard.clockU);
  return soundReading(
    view,
    {
      state: said.state,
      step: steps[said.for ?? ""] ?? "29b",
      ...(said.for === "drift" ? { thermal: "warming" as const } : {}),
      file: { name: heard.name, hash: sound },
      columns: {
        seconds: [heard.health.secondsCount],
        sampleRateHz: [heard.head.sampleRateHz],
        timeS: column((r) => r.atS),
        frequencyHz: column((r) => r.hz),
        frequencyUHz: column((r) => r.uHz),
        peakDbfs: column((r) => r.peakDbfs),
      },
      figures: [
        ...(tone ? [figure("tone, mean", tone.meanHz, sure(tone.meanHz, tone.uHz))] : []),
        ...(told.apart ? [figure("two tones apart", told.apart.meanHz, sure(told.apart.meanHz, told.apart.uHz))] : []),
        ...(told.swell ? [figure("slow swell", told.swell.hz, told.swell.uHz)] : []),
      ],
      warnings: [...heard.warnings],
    },
    stamp,
  );
}

/** What the set is tuned to against time since switching on, from the note of a steady carrier: sideband and carrier must be said. */
function driftRows({ told, heard, said, carrierHz }: ToKeep, why: string, stamp: Stamp): Entry {
  const missing = (path: string, expected: string) => new InputError([{ path, code: "not-said", read: "", expected }]);
  if (carrierHz === undefined)
    throw missing("--carrier", "the carrier that the set listens to: its note alone does not tell what the set is tuned to");
  if (!said.sideband) throw missing("--sideband", "upper, where the note falls as the set is tuned up; lower, where it rises");
  if (!told.tone) throw noTone(heard.name);
  const startS = orThrow(parseQuantity(said.after, "time", "--after")).value;
  const side = said.sideband === "upper" ? -1 : 1;
  const log = thinned({
    timeS: Float64Array.from(told.tone.readings, (r) => startS + r.atS),
    hz: Float64Array.from(told.tone.readings, (r) => carrierHz + side * r.hz),
  });
  const path = "drift.driftLog";
  const at = declaredAt(path);
  if (at?.kind !== "list") throw new Error(`${path} is no list`);
  const rows = Array.from(log.timeS, (time, i) => ({
    time,
    frequency: log.hz[i],
    temperature: Number.NaN,
    line: Number.NaN,
    room: Number.NaN,
  }));
  return { id: stamp.newId(), at: stamp.at, who: stamp.who, kind: "rows", path, rows: rowsToStore(rows, at.columns), why };
}
