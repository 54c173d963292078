import { cardRows } from "../job/cards";
import { formById, forms } from "../job/forms";
import type { JobView } from "../job/view";
import { readTable } from "../readings/delimited";
import { readSweep } from "../readings/read-sweep";
import { flacHead, isFlac } from "../readings/sound/flac-head";
import type { NumberTable } from "../readings/sweep";
import { readWav } from "../readings/wav";
import { readZeroBeats } from "../readings/zero-beats";
import { readCsv } from "../units/csv";
import { printValue } from "../units/print";
import type { ReadingKind } from "./read-in/asking";

/** A file's numbers as they are shown before anything is made of them, in the units of the axes. */
export interface Shown {
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly traces: readonly { readonly label: string; readonly x: readonly number[]; readonly y: readonly number[] }[];
  /** single points rather than a line */
  readonly points?: boolean;
}
/** What a file is by its content. */
export type Recognised = { readonly says: string; readonly shown?: Shown } & (
  | { readonly is: "reading"; readonly as: ReadingKind /** what only the person knows */; readonly asks: readonly Ask[] }
  | { readonly is: "chart"; readonly card: string; readonly fields: Readonly<Record<string, string>> }
  | { readonly is: "photograph" | "job" | "unknown" }
);
/** What no file tells: which sweep it is, the unit of bare frequencies, the band and the main dial's place of zero beats. */
export type Ask = "which sweep" | "unit" | "band";

const starts = (bytes: Uint8Array, ...with_: readonly number[]): boolean => with_.every((b, i) => bytes[i] === b);
const text = (bytes: Uint8Array): string => new TextDecoder("utf-8").decode(bytes.subarray(0, 65_536));
/** Points that a preview draws at most. */
const mostDrawn = 1200;
/** Every so many of a long column, so that a picture of it is drawn at once. */
const every = (values: ArrayLike<number>, factor = 1): number[] => {
  const step = Math.max(1, Math.ceil(values.length / mostDrawn));
  return Array.from({ length: Math.floor((values.length + step - 1) / step) }, (_, i) => values[i * step] / factor);
};

/** A packed recording: how long it is, by its head alone. */
function ofFlac(bytes: Uint8Array, name: string): Recognised | undefined {
  if (!isFlac(bytes)) return undefined;
  const head = flacHead(bytes, name);
  const { samplesCount, sampleRateHz } = head.ok ? head.value : {};
  const long = samplesCount && sampleRateHz ? ` of ${printValue(samplesCount / sampleRateHz, "time")}` : "";
  return { is: "reading", as: "recording", asks: [], says: `A FLAC recording${long}` };
}

/** A recording as its loudest sample of each stretch, up and down. */
function ofRecording(bytes: Uint8Array, name: string): Recognised | undefined {
  if (!starts(bytes, 0x52, 0x49, 0x46, 0x46)) return undefined;
  const wav = readWav(bytes, name);
  if (!wav.ok) return { is: "reading", as: "recording", asks: [], says: "A recording of sound" };
  const { samplesCount, sampleRateHz, samples } = wav.value;
  const seconds = samplesCount / sampleRateHz;
  const stretch = Math.max(1, Math.ceil(samplesCount / (mostDrawn / 2)));
  const x: number[] = [];
  const y: number[] = [];
  for (let from = 0; from < samplesCount; from += stretch) {
    const own = samples(0, from, stretch);
    x.push(from / sampleRateHz, from / sampleRateHz);
    y.push(
      own.reduce((m, v) => Math.max(m, v), -1),
      own.reduce((m, v) => Math.min(m, v), 1),
    );
  }
  const shown = { title: name, xLabel: "seconds", yLabel: "of full scale", traces: [{ label: "sound", x, y }] };
  return { is: "reading", as: "recording", asks: [], says: `A recording of ${printValue(seconds, "time")}`, shown };
}

/** Cells of a chart that is headed as one of the record cards is: on the rows of the same points where the card has them. */
function ofChart(view: JobView, bytes: Uint8Array): Recognised | undefined {
  const lines = readCsv(text(bytes)).filter((l) => l.some((c) => c.trim() !== "") && !l[0].startsWith("#"));
  const heads = (lines[0] ?? []).map((h) => h.trim());
  const form = forms.find(
    (f) => f.columns && heads.length > 1 && heads.every((h) => f.columns?.includes(h)) && heads.includes(f.columns[0]),
  );
  if (!form || formById(form.id) === undefined) return undefined;
  const there = cardRows(view, form.id);
  const keys = heads.filter((h) => !form.reads?.includes(h)).slice(0, 2);
  let last = Math.max(0, ...there.map((r) => r.number));
  const cells = lines.slice(1).flatMap((line) => {
    const own = Object.fromEntries(heads.map((h, i) => [h, (line[i] ?? "").trim()]));
    const same = there.find((r) => keys.every((k) => (r.cells[k] ?? "") === own[k]));
    if (!same) last++;
    return heads.flatMap((h) => (own[h] === "" ? [] : [[`row ${same?.number ?? last}: ${h}`, own[h]] as const]));
  });
  return {
    is: "chart",
    card: form.id,
    fields: Object.fromEntries(cells),
    says: `${form.title}: ${lines.length === 2 ? "one row" : `${lines.length - 1} rows`}`,
  };
}

/** Zero beats say so in their heading: numbers alone could be a sweep as well. */
function ofZeroBeats(bytes: Uint8Array, name: string): Recognised | undefined {
  const heading =
    text(bytes)
      .split(/\r?\n/)
      .find((l) => l.trim() !== "" && !/^\s*[#!]/.test(l)) ?? "";
  if (!/\b(?:reading|scale|dial|div)/i.test(heading) || !/freq|hz\b|\bkc|\bmc/i.test(heading)) return undefined;
  const z = readZeroBeats(bytes, name, "kHz");
  if (!z.ok) return undefined;
  const shown = {
    title: name,
    xLabel: "scale reading",
    yLabel: "frequency, kHz",
    points: true,
    traces: [{ label: "zero beats", x: [...z.value.reading], y: z.value.frequencyHz.map((hz) => hz / 1e3) }],
  };
  return { is: "reading", as: "dial", asks: ["band"], says: `${z.value.reading.length} zero beats of a dial`, shown };
}

/** How far from its IF a sweep may be centred and still be one of the strip, relative. House rule, no source. */
const nearRatio = 0.1;
function ofSweep(view: JobView, bytes: Uint8Array, name: string, unit: string): Recognised | undefined {
  const read = readSweep(bytes, name, unit === "" ? {} : { frequencyUnit: unit });
  if (!read.ok) {
    const lacks = read.issues.some((i) => i.code === "no-unit");
    return lacks
      ? { is: "reading", as: "if-sweep", asks: ["unit", "which sweep"], says: "A sweep; the file doesn't say the unit of its frequencies" }
      : undefined;
  }
  const { frequencyHz, levelDb } = read.value;
  const [low, high] = [frequencyHz[0], frequencyHz[frequencyHz.length - 1]];
  const centre = view.set.strip.intermediateFrequency.value;
  const ofStrip = low < centre && centre < high && high - low < 4 * nearRatio * centre;
  const factor = high >= 3e6 ? 1e6 : 1e3;
  const unitShown = factor === 1e6 ? "MHz" : "kHz";
  const span = `${(low / factor).toFixed(1)} to ${(high / factor).toFixed(1)} ${unitShown}`;
  return {
    is: "reading",
    as: ofStrip ? "if-sweep" : "sweep",
    // a sweep elsewhere may be of one resonance or of anything: that only the person knows
    asks: ["which sweep"],
    says: `A sweep of ${frequencyHz.length} points, ${span}${ofStrip ? ": around this set's IF, so it is taken as its IF strip's" : ""}`,
    shown: {
      title: name,
      xLabel: `frequency, ${unitShown}`,
      yLabel: "level, dB",
      traces: [{ label: "as read", x: every(frequencyHz, factor), y: every(levelDb) }],
    },
  };
}

const isTime = (c: NumberTable["columns"][number]): boolean => /time|second|minute|hour|\bt\b/i.test(`${c.name} ${c.unit}`);
/** A log has a column of time; any other table is one of numbers. */
function ofTable(bytes: Uint8Array, name: string, onlyLog: boolean): Recognised | undefined {
  const t = readTable(bytes, name);
  if (!t.ok || t.value.columns.length === 0) return undefined;
  const { columns, lines } = t.value;
  const time = columns.find(isTime);
  if (onlyLog && !time) return undefined;
  const label = (c: NumberTable["columns"][number]): string => [c.name, c.unit].filter((s) => s !== "").join(", ") || "numbers";
  const x = time ?? columns[0];
  const y = columns.find((c) => c !== x);
  const shown = y && {
    title: name,
    xLabel: label(x),
    yLabel: label(y),
    traces: [{ label: label(y), x: every(x.values), y: every(y.values) }],
  };
  return {
    is: "reading",
    as: "table",
    asks: [],
    says: `${time ? "A log" : "A table"} of ${lines.length} rows and ${columns.length} columns`,
    ...(shown ? { shown } : {}),
  };
}

/**
 * What a file is, by what stands in it; its name says nothing.
 *
 * @param view the job that it would belong to
 * @param bytes the file
 * @param name its name, for titles
 * @param unit unit of bare frequencies, where the person has said it
 * @returns what it is, how it looks, and what only a person can tell of it
 */
export function recognise(view: JobView, bytes: Uint8Array, name: string, unit = ""): Recognised {
  if (starts(bytes, 0xff, 0xd8, 0xff) || starts(bytes, 0x89, 0x50, 0x4e, 0x47)) return { is: "photograph", says: "A photograph" };
  if (starts(bytes, 0x50, 0x4b, 0x03, 0x04)) return { is: "job", says: "A zip: a whole job as it was exported" };
  const heard = ofRecording(bytes, name) ?? ofFlac(bytes, name);
  if (heard) return heard;
  const wide = starts(bytes, 0xff, 0xfe) || starts(bytes, 0xfe, 0xff);
  if (bytes.length === 0 || (!wide && bytes.subarray(0, 4096).includes(0)))
    return { is: "unknown", says: "Nothing that is known here: no sweep, table, log, chart, recording, photograph or job" };
  const untold: Recognised = {
    is: "reading",
    as: "if-sweep",
    asks: ["which sweep"],
    says: "Its content doesn't tell what it is: say it below",
  };
  return (
    ofChart(view, bytes) ??
    ofZeroBeats(bytes, name) ??
    ofTable(bytes, name, true) ??
    ofSweep(view, bytes, name, unit) ??
    ofTable(bytes, name, false) ??
    untold
  );
}
