import type { Entry } from "../job/document";
import { readAs } from "../job/readings-in";
import { dialBeats, type JobView, setPointsOf } from "../job/view";
import type { Stamp } from "../job/works";
import { bad, good, type Read } from "../units/issue";
import { zeroBeatFigures } from "./read-in/figures";

/**
 * Takes back one zero beat and no other: its reading is superseded, and where that holds more of them the rest are recorded again.
 *
 * @param view the job
 * @param readingId reading that holds it
 * @param row its row there, from 0
 * @param why in words
 * @param stamp time, person, ids
 * @returns the entries, or what there is none of
 */
export function takeBackBeat(view: JobView, readingId: string, row: number, why: string, stamp: Stamp): Read<Entry[]> {
  const entry = readAs(view.inForce, "dial").find((e) => e.reading.id === readingId);
  if (!entry) return bad("reading", "no-reading", readingId, "a current reading of zero beats: `fettle show` lists them");
  const { reading } = entry;
  const count = reading.columns.reading?.length ?? 0;
  if (!Number.isInteger(row) || row < 0 || row >= count)
    return bad("row", "no-row", String(row + 1), `a row of that reading: 1 to ${count}`);
  const head = { at: stamp.at, who: stamp.who };
  const correction: Entry = { ...head, id: stamp.newId(), kind: "correction", supersedes: entry.id, why };
  if (count === 1) return good([correction]);
  const left = Object.fromEntries(Object.entries(reading.columns).map(([k, v]) => [k, v.filter((_, i) => i !== row)]));
  const z = { reading: left.reading ?? [], frequencyHz: left.frequencyHz ?? [], approach: left.approach ?? [] };
  const id = stamp.newId();
  return good([
    correction,
    {
      ...head,
      id,
      kind: "reading",
      reading: { ...reading, id: `r-${id}`, columns: left, figures: zeroBeatFigures(z, reading.file.name) },
    },
  ]);
}

/**
 * The same by the row that an answer names.
 *
 * @param view the job
 * @param band band of the set
 * @param setPoint set-point of the main dial; the latest where not said
 * @param row row among the zero beats of that dial, from 1
 * @param stamp time, person, ids
 * @returns the entries and the zero beat in words, or what there is none of
 */
export function takeBackRow(
  view: JobView,
  band: string,
  setPoint: string | undefined,
  row: number,
  stamp: Stamp,
): Read<{ readonly entries: Entry[]; readonly said: string }> {
  const beats = dialBeats(view, `bands.${band}:${setPoint ?? setPointsOf(view, band)[0] ?? ""}`);
  const beat = beats[row - 1];
  if (!beat)
    return bad(
      "row",
      "no-row",
      String(row),
      beats.length === 0 ? "a band with zero beats" : `a row of its zero beats: 1 to ${beats.length}`,
    );
  const taken = takeBackBeat(view, beat.readingId, beat.row, `zero beat of row ${row} taken back`, stamp);
  return taken.ok ? good({ entries: taken.value, said: `${beat.reading} is ${beat.frequencyHz / 1e3} kHz` }) : taken;
}
