import { fitResonance } from "../../infer/resonance/fit";
import { readTable } from "../../readings/delimited";
import { readSweep } from "../../readings/read-sweep";
import { hearRecording } from "../../readings/recording";
import { recordingFigures } from "../../readings/recording-figures";
import { sweepFigures } from "../../readings/sweep-figures";
import { readRecording } from "../../readings/unpacked";
import { readZeroBeats } from "../../readings/zero-beats";
import { iaruSMeterDb } from "../../standards/smeter";
import { good, type Read } from "../../units/issue";
import { printValue } from "../../units/print";
import type { ReadingAsk } from "./asking";
import { type FigureRow, plain, row, zeroBeatFigures } from "./figures";
import { resonanceRows, resonanceWarnings } from "./resonance";

/** What a file holds: its numbers by column, its figures, and what is odd about it. */
export interface Numbers {
  readonly columns: Record<string, number[]>;
  readonly figures: readonly FigureRow[];
  readonly warnings: readonly string[];
}

/**
 * Numbers of a file, read as what it is said to be.
 *
 * @param bytes the file
 * @param name its name, for figures and issues
 * @param how what it is, with units and laws that the file does not tell
 * @returns columns, figures and warnings, or the located issue
 * @throws {InputError} where a packed recording is damaged further on
 */
export async function numbersOf(bytes: Uint8Array, name: string, how: ReadingAsk): Promise<Read<Numbers>> {
  return how.as === "recording" ? ofRecording(bytes, name) : writtenNumbers(bytes, name, how);
}
/**
 * Numbers of a file that is text.
 *
 * @param bytes the file
 * @param name its name, for figures and issues
 * @param how what it is, a recording of sound excepted
 * @returns as numbersOf
 */
export function writtenNumbers(bytes: Uint8Array, name: string, how: ReadingAsk): Read<Numbers> {
  if (how.as === "table") return ofTable(bytes, name);
  if (how.as === "dial") return ofZeroBeats(bytes, name, how);
  return ofSweep(bytes, name, how);
}

type HeardFigure = ReturnType<typeof recordingFigures>[number];
function heardRow(f: HeardFigure, name: string): FigureRow {
  if (!f.ran) return plain(f.name, f.dimension, f.value, name, f.u);
  const { from, to } = f.ran;
  const bound = (hz: number): string => printValue(hz, f.dimension, (to - from) / 20);
  return { name: f.name, dimension: f.dimension, text: `wanders, ${bound(from)} to ${bound(to)}` };
}
async function ofRecording(bytes: Uint8Array, name: string): Promise<Read<Numbers>> {
  const w = await readRecording(bytes, name);
  if (!w.ok) return w;
  const heard = hearRecording(w.value, name);
  if (!heard.ok) return heard;
  return good({
    columns: { seconds: [w.value.samplesCount / w.value.sampleRateHz], sampleRateHz: [w.value.sampleRateHz] },
    figures: recordingFigures(w.value, heard.value).map((f) => heardRow(f, name)),
    warnings: heard.value.warnings,
  });
}

/** Headings as names of columns: each told from the others, none left out. */
function columnNames(headings: readonly string[]): string[] {
  const taken = new Set(["__proto__"]);
  return headings.map((heading) => {
    let name = heading;
    for (let n = 2; taken.has(name); n++) name = `${heading} (${n})`;
    taken.add(name);
    return name;
  });
}
function ofTable(bytes: Uint8Array, name: string): Read<Numbers> {
  const t = readTable(bytes, name);
  if (!t.ok) return t;
  const names = columnNames(t.value.columns.map((c, i) => `${c.name || `column ${i + 1}`}${c.unit ? ` ${c.unit}` : ""}`));
  return good({
    columns: Object.fromEntries(t.value.columns.map((c, i) => [names[i], Array.from(c.values)])),
    figures: [
      plain("rows", "ratio", t.value.lines.length, name),
      plain("columns", "ratio", names.length, name),
      plain("runs", "ratio", t.value.runs.length, name),
    ],
    warnings: t.value.warnings,
  });
}

function ofZeroBeats(bytes: Uint8Array, name: string, how: ReadingAsk): Read<Numbers> {
  const z = readZeroBeats(bytes, name, how.frequencyUnit);
  if (!z.ok) return z;
  return good({
    columns: { reading: [...z.value.reading], frequencyHz: [...z.value.frequencyHz], approach: [...z.value.approach] },
    figures: zeroBeatFigures(z.value, name),
    warnings: [],
  });
}

function ofSweep(bytes: Uint8Array, name: string, how: ReadingAsk): Read<Numbers> {
  const s = readSweep(bytes, name, {
    ...(how.frequencyUnit ? { frequencyUnit: how.frequencyUnit } : {}),
    ...(how.sMeterLaw ? { sMeterDb: iaruSMeterDb } : {}),
  });
  if (!s.ok) return s;
  const columns = {
    frequencyHz: Array.from(s.value.frequencyHz),
    levelDb: Array.from(s.value.levelDb),
    ...(s.value.levelUDb ? { levelUDb: Array.from(s.value.levelUDb) } : {}),
    ...(s.value.complex ? { re: Array.from(s.value.complex.re), im: Array.from(s.value.complex.im) } : {}),
  };
  const figures: FigureRow[] = sweepFigures(s.value, name).map((f) =>
    f.quantity ? row(f.name, f.dimension, f.quantity) : { name: f.name, dimension: f.dimension, text: f.none ?? "" },
  );
  const warnings = [...s.value.warnings];
  if (how.as === "resonance") {
    const r = fitResonance(s.value, name);
    if (!r.ok) return r;
    figures.push(...resonanceRows(r.value, name));
    warnings.push(...resonanceWarnings(r.value, figures));
  }
  return good({ columns, figures, warnings });
}
