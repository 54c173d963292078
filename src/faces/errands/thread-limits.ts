import type { ErrandName } from "../../desk/errand";

export interface ThreadLimits {
  readonly threads: number;
  readonly memoryMb: number;
  /** most errands that wait for a thread */
  readonly waiting: number;
  readonly seconds: Readonly<Record<ErrandName, number>>;
}
/** Seconds leave a slow machine that does much else at once ten times what a quick one takes. */
export const usualLimits: ThreadLimits = {
  threads: 2,
  memoryMb: 1024,
  waiting: 40,
  seconds: {
    read: 120,
    unpack: 120,
    pack: 120,
    sheet: 300,
    plan: 120,
    parts: 300,
    proof: 300,
    faults: 120,
    report: 900,
    record: 900,
    answers: 900,
    cards: 120,
    dialCard: 120,
    converterCard: 120,
    dialScale: 120,
  },
};
/** What each errand works on, in words. */
export const said: Readonly<Record<ErrandName, string>> = {
  read: "the file",
  unpack: "the job's zip",
  pack: "the export",
  sheet: "the sheet",
  plan: "the work",
  parts: "the parts list",
  proof: "the performance record",
  faults: "the faults",
  report: "the report",
  record: "the technical record",
  answers: "the answers",
  cards: "the record cards",
  dialCard: "the calibration card",
  converterCard: "the converter's card",
  dialScale: "the dial scale",
};
/** These never take the last thread: a file or a card is not to wait for them. */
export const slow: readonly ErrandName[] = ["report", "record", "answers", "parts", "proof", "sheet"];
