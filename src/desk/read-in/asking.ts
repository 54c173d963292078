import type { StripFit } from "../../infer/strip/fit";
import type { Entry, Reading } from "../../job/document";
import type { readingKinds } from "../../job/format";
import { stepById } from "../../job/steps";
import type { JobView } from "../../job/view";
import type { Stamp } from "../../job/works";
import type { StoredFile } from "../../store/store";
import { bad } from "../../units/issue";
import type { Quantity } from "../../units/quantity";

export type ReadingKind = (typeof readingKinds)[number];
export interface ReadingAsk {
  readonly as: ReadingKind;
  readonly state: "as-found" | "as-left";
  readonly step?: string;
  readonly stage?: string;
  readonly instrument?: string;
  readonly thermal?: "cold" | "warming" | "warm";
  readonly lineVoltage?: Quantity;
  readonly frequencyUnit?: string;
  /** the stated law of S units, where no S-meter record of this set is there */
  readonly sMeterLaw?: "iaru";
  /** zero beats: band of the set, and set-point of the main dial */
  readonly band?: string;
  readonly setPoint?: string;
  readonly invented?: string;
  /** leave the strip as it is */
  readonly withoutFit?: boolean;
}
export interface ReadIn {
  readonly reading: Reading;
  readonly entries: readonly Entry[];
  readonly file: StoredFile;
  readonly fit?: StripFit;
}

/** Step of the job that a reading belongs to where none is named. */
export const defaultStep: Readonly<Record<ReadingKind, string>> = {
  "if-sweep": "33b",
  sweep: "33b",
  resonance: "18",
  recording: "29b",
  table: "10",
  dial: "26",
};

/** An id for a reading that no other has, whoever reads one in at the same time. */
export const readingId = (stamp: Stamp): string => `r-${stamp.newId().replace(/-/g, "").slice(0, 12)}`;

/**
 * What a reading is said to be of and is not in the job: a step, an instrument, a band.
 *
 * @param view the job
 * @param how what the reading is said to be
 * @returns the first of them, located; nothing where all of it is there
 */
export function misaddressed(view: JobView, how: ReadingAsk): ReturnType<typeof bad> | undefined {
  if (how.step && !stepById(how.step)) return bad("--step", "no-step", how.step, "the number of a step, such as 20 or 33b");
  if (how.instrument && !view.instruments.some((i) => i.id === how.instrument)) {
    const registered = view.instruments.map((i) => i.id).join(", ");
    const expected = registered ? `one of ${registered}` : "an instrument of this job: register it with `fettle instrument`";
    return bad("--instrument", "no-instrument", how.instrument, expected);
  }
  if (how.as === "dial" && !view.set.bands.some((b) => b.id === how.band)) {
    const bands = view.set.bands.map((b) => b.id).join(", ");
    return bad("--band", "no-band", how.band ?? "", `the band of the zero beats: one of ${bands}`);
  }
  return undefined;
}
