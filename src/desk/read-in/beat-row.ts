import type { Entry, Reading } from "../../job/document";
import { readAs } from "../../job/readings-in";
import { workKindById } from "../../job/ripple";
import type { JobView } from "../../job/view";
import type { Stamp } from "../../job/works";
import { bad, good, type Read } from "../../units/issue";
import { parseQuantity } from "../../units/parse";
import { printExact, printValue } from "../../units/print";
import { typedDial } from "./typed-dial";
import { setPointMeant } from "./zero-beat";

/** Pointer readings of one band in a row, as they are typed: the marks that they are of follow. */
export interface TypedRow {
  readonly band: string;
  readonly setPoint: string;
  /** such as `4.049 5.088 - 7.262`; a dash leaves a mark out */
  readonly readings: string;
  /** spacing of the marks; told by the readings where the scale is marked in frequency */
  readonly every: string;
  /** the first mark; the one nearest to the first reading where the scale is marked in frequency */
  readonly from: string;
  readonly approach: "up" | "down" | "not-said";
  readonly thermal?: Reading["thermal"] | undefined;
}
/** A pointer reading with the mark that it is of. */
export interface MarkedBeat {
  readonly reading: number;
  readonly hz: number;
}
type Band = JobView["set"]["bands"][number];
/** How far a reading may lie from its mark, as a part of the spacing, before it might be of the next. */
const farthest = 0.35;
/** Spacings that markers have: 1, 2 or 5 times a power of ten. */
const roundSpacing = (hz: number): number => {
  const decade = 10 ** Math.floor(Math.log10(hz) + 1e-9);
  const near = [1, 2, 5, 10].map((m) => m * decade);
  return near.reduce((best, s) => (Math.abs(Math.log(s / hz)) < Math.abs(Math.log(best / hz)) ? s : best));
};
/** How far steps between readings may be from whole multiples of the spacing that they tell. */
const unevenAtMost = 0.15;
/** The round spacing that readings are apart, where all their steps are multiples of one. */
function spacingTold(steps: readonly number[], unitHz: number): number | undefined {
  const least = Math.min(...steps) * unitHz;
  if (!(least > 0)) return undefined;
  const spacing = roundSpacing(least);
  const even = steps.every((s) => Math.abs((s * unitHz) / spacing - Math.round((s * unitHz) / spacing)) <= unevenAtMost);
  return even && Math.abs(least / spacing - 1) <= unevenAtMost ? spacing : undefined;
}
/** Marks that were read on a band before, in order. */
const marksBefore = (view: JobView, band: string): readonly number[] =>
  [...new Set(readAs(view.inForce, "dial").flatMap(({ reading: r }) => (r.band === band ? (r.columns.frequencyHz ?? []) : [])))].sort(
    (a, b) => a - b,
  );
/** The same marks again: each reading is of the nearest of them. */
function sameMarks(readings: readonly number[], unitHz: number, marks: readonly number[]): readonly MarkedBeat[] | undefined {
  const everyHz = Math.min(...marks.slice(1).map((m, i) => m - marks[i]));
  const beats = readings.map((reading) => {
    const off = (m: number): number => Math.abs(m - reading * unitHz);
    return { reading, hz: marks.reduce((best, m) => (off(m) < off(best) ? m : best)) };
  });
  const apart = new Set(beats.map((b) => b.hz)).size === beats.length;
  return apart && beats.every((b) => Math.abs(b.reading * unitHz - b.hz) <= farthest * everyHz) ? beats : undefined;
}
/** What a unit of the scale is in Hz, where all that was read on it would then lie on the band; undefined for a scale in divisions. */
const unitOf = (readings: readonly number[], band: Band): number | undefined =>
  [1e3, 1e6].find((u) => readings.every((r) => r * u > 0.9 * band.low.value && r * u < 1.1 * band.high.value));

function readRow(said: TypedRow): Read<readonly (number | undefined)[]> {
  const words = said.readings.split(/[\s;]+|,(?=\s)/).filter((w) => w !== "");
  const out: (number | undefined)[] = [];
  for (const w of words) {
    if (/^[-–—]$/.test(w)) out.push(undefined);
    else {
      const r = parseQuantity(w, "division", "readings");
      if (!r.ok)
        return bad(
          "readings",
          "unreadable",
          w,
          "pointer readings with spaces between them, such as 4.049 5.088 - 7.262; a dash leaves a mark out",
        );
      out.push(r.value.value);
    }
  }
  if (out.filter((r) => r !== undefined).length < 2) return bad("readings", "too-few", said.readings, "two readings at least");
  return good(out);
}
function frequencyOf(text: string, field: string): Read<number | undefined> {
  if (text.trim() === "") return good(undefined);
  const r = parseQuantity(text, "frequency", field);
  if (!r.ok) return r;
  return r.value.value > 0 ? good(r.value.value) : bad(field, "not-positive", text, "a frequency above 0");
}
/** Marks counted from the first one on. */
const counted = (row: readonly (number | undefined)[], fromHz: number, everyHz: number): readonly MarkedBeat[] =>
  row.flatMap((reading, i) => (reading === undefined ? [] : [{ reading, hz: fromHz + i * everyHz }]));

/** Marks nearest to what the scale says, each its own. */
function nearest(readings: readonly number[], unitHz: number, everyHz: number): Read<readonly MarkedBeat[]> {
  const beats = readings.map((reading) => ({ reading, hz: Math.round((reading * unitHz) / everyHz) * everyHz }));
  const twice = beats.find((b, i) => beats.some((x, k) => k < i && x.hz === b.hz));
  const far = twice ?? beats.find((b) => b.hz <= 0 || Math.abs(b.reading * unitHz - b.hz) > farthest * everyHz);
  if (!far) return good(beats);
  return bad(
    "readings",
    "which-mark",
    String(far.reading),
    `a reading that can be of one mark only, every ${printExact(everyHz, "frequency")}: say the first mark and the spacing (--from, --every)`,
  );
}

/**
 * Pointer readings with the marks that they are of. On a scale in divisions the first mark and the spacing are said; on one marked in frequency the
 * marks are those that were read before, else every multiple of the round spacing that the readings themselves are apart; each reading is of the mark
 * nearest to it, so long as no other could be meant.
 *
 * @param view the job
 * @param said what was typed
 * @returns beats in order, and the spacing of their marks, none where they are of the marks that were read before; or what is wrong, at its field
 * @source markers stand at multiples of their spacing, identity
 */
export function beatsOfRow(
  view: JobView,
  said: TypedRow,
): Read<{ readonly beats: readonly MarkedBeat[]; readonly everyHz: number | undefined }> {
  const band = view.set.bands.find((b) => b.id === said.band);
  if (!band) return bad("band", "no-band", said.band, `one of ${view.set.bands.map((b) => `${b.id} (${b.label})`).join(", ")}`);
  const [row, every, from] = [readRow(said), frequencyOf(said.every, "every"), frequencyOf(said.from, "from")];
  if (!row.ok) return row;
  if (!every.ok) return every;
  if (!from.ok) return from;
  const readings = row.value.filter((r) => r !== undefined);
  const unitHz = unitOf(readings, band);
  const steps = readings.slice(1).map((r, i) => Math.abs(r - readings[i]));
  const before = marksBefore(view, said.band);
  const same =
    every.value === undefined && from.value === undefined && unitHz !== undefined && before.length > 1
      ? sameMarks(readings, unitHz, before)
      : undefined;
  if (same) return good({ beats: same, everyHz: undefined });
  const everyHz = every.value ?? (unitHz === undefined ? undefined : spacingTold(steps, unitHz));
  if (everyHz === undefined) return bad("every", "not-said", "", "how far the marks are apart, such as 100 kHz: the scale doesn't tell");
  if (from.value === undefined && unitHz === undefined)
    return bad("from", "not-said", "", "the first mark, such as 3.5 MHz: the scale is not marked in frequency");
  const beats = from.value === undefined ? nearest(readings, unitHz ?? 1, everyHz) : good(counted(row.value, from.value, everyHz));
  if (!beats.ok) return beats;
  const outside = beats.value.find((b) => b.hz < 0.95 * band.low.value || b.hz > 1.05 * band.high.value);
  if (outside)
    return bad(
      "readings",
      "outside-the-band",
      `${outside.reading}, which would be ${printExact(outside.hz, "frequency")}`,
      `marks on ${band.label}, ${printValue(band.low.value, "frequency")} to ${printValue(band.high.value, "frequency")}`,
    );
  return good({ beats: beats.value, everyHz });
}

/** Whether a dial is still as it was found: no work has moved it. */
const isAsFound = (view: JobView, band: string): boolean =>
  !view.works.some((w) => workKindById(w.work)?.movesDial === true && (!w.subject.startsWith("bands.") || w.subject === `bands.${band}`));

/**
 * A row of zero beats as one entry.
 *
 * @param view the job
 * @param said what was typed
 * @param stamp time, person, id
 * @returns the entry with its beats; or what is wrong, at its field
 * @source house format
 */
export function beatRow(
  view: JobView,
  said: TypedRow,
  stamp: Stamp,
): Read<{ readonly entry: Entry; readonly beats: readonly MarkedBeat[]; readonly everyHz: number | undefined }> {
  const row = beatsOfRow(view, said);
  if (!row.ok) return row;
  const { beats } = row.value;
  const approach = ({ up: 1, down: -1, "not-said": 0 } as const)[said.approach];
  const z = {
    reading: beats.map((b) => b.reading),
    frequencyHz: beats.map((b) => b.hz),
    approach: beats.map(() => approach),
  };
  const state = isAsFound(view, said.band) ? "as-found" : "as-left";
  const own = { state, thermal: said.thermal, band: said.band, setPoint: setPointMeant(view, said), beats: z, warnings: [] } as const;
  return good({ entry: typedDial(view, own, stamp), ...row.value });
}
/** A row in words: which marks they are, and which of them each reading was taken for. */
export const sayRow = ({ beats, everyHz }: { readonly beats: readonly MarkedBeat[]; readonly everyHz: number | undefined }): string =>
  `${everyHz === undefined ? "The marks that were read before" : `Marks every ${printExact(everyHz, "frequency")}`}: ${beats.map((b) => `${b.reading} is ${printExact(b.hz, "frequency")}`).join(", ")}.`;
