import type { DialPoint } from "../readings/zero-beats";
import type { Reading } from "./document";
import type { JobView } from "./fold";
import { placeIn } from "./place-in";
import { readAs } from "./readings-in";
import { workKindById } from "./ripple";

/** Readings of a band's dial as it stands: those from before work that moved it tell of a dial that is no more. */
function dialReadings(view: JobView, band: string): readonly Reading[] {
  const moved = view.works.findLast(
    (e) => workKindById(e.work)?.movesDial === true && (!e.subject.startsWith("bands.") || e.subject === `bands.${band}`),
  );
  const at = placeIn(view.inForce, moved?.id);
  return readAs(view.inForce, "dial")
    .filter((e) => e.reading.band === band && placeIn(view.inForce, e.id) > at)
    .map((e) => e.reading);
}
/**
 * Set-points of a band with zero beats of its dial as it stands, the latest first.
 *
 * @param view the job
 * @param band its id
 * @returns texts as they were read; an empty one for beats without a set-point
 * @source house frame
 */
export function setPointsOf(view: JobView, band: string): readonly string[] {
  return [
    ...new Set(
      dialReadings(view, band)
        .map((r) => r.setPoint ?? "")
        .reverse(),
    ),
  ];
}

/** A zero beat in force, and where it stands: which reading of the job, and which of its rows. */
export interface RecordedBeat extends DialPoint {
  readonly readingId: string;
  readonly row: number;
  /** how many zero beats the reading holds */
  readonly ofCount: number;
}
/**
 * Zero beats of a band's dial as it stands, in the order in which they were taken, each with the reading that holds it.
 *
 * @param view the job
 * @param at `bands.80`, or `bands.80:3.5` at a set-point; the latest set-point where none is named
 * @returns readings in divisions or Hz as the scale has them, frequencies in Hz
 * @source house frame
 */
export function dialBeats(view: JobView, at: string): readonly RecordedBeat[] {
  const [, band, named] = /^bands\.([^.:]+)(?::(.*))?$/.exec(at) ?? [];
  const setPoint = named ?? setPointsOf(view, band ?? "")[0];
  return dialReadings(view, band ?? "").flatMap((r) =>
    (r.setPoint ?? "") === setPoint
      ? (r.columns.reading ?? []).map((reading, row, all) => ({
          reading,
          frequencyHz: r.columns.frequencyHz?.[row] ?? Number.NaN,
          approach: Math.sign(r.columns.approach?.[row] ?? 0) as DialPoint["approach"],
          readingId: r.id,
          row,
          ofCount: all.length,
        }))
      : [],
  );
}
/** Zero beats in force on a band, in the order in which they were taken. */
export const dialPoints = (view: JobView, at: string): readonly DialPoint[] =>
  dialBeats(view, at).map(({ reading, frequencyHz, approach }) => ({ reading, frequencyHz, approach }));

/**
 * Readings with figures of their own, and, in a line each, the dials whose zero beats stand for themselves.
 *
 * @source house frame
 */
export function readingsAndDials(view: JobView): { readonly readings: readonly Reading[]; readonly dials: readonly string[] } {
  const dials = view.set.bands.flatMap((b) =>
    setPointsOf(view, b.id).map((p) => {
      const count = dialPoints(view, `bands.${b.id}:${p}`).length;
      const invented = readAs(view.inForce, "dial").some(
        ({ reading: r }) => r.band === b.id && (r.setPoint ?? "") === p && r.invented !== undefined,
      );
      return `${count} zero beat${count === 1 ? "" : "s"} on ${b.label}${p ? `, main dial at ${p}` : ""}${invented ? ", INVENTED" : ""}`;
    }),
  );
  return { readings: view.readings.filter((r) => r.as !== "dial"), dials };
}
