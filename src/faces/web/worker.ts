import { answer } from "../../ask/answer";
import type { Overrides } from "../../ask/resolved";
import type { JobDocument } from "../../job/document";
import { benchOf, type JobView, viewOf } from "../../job/view";
import { sheetById } from "../../sheets/index";
import type { Sampling } from "../../units/draws";

/** Answers sheets off the main thread: the same core as everywhere, quick or in full. */
export interface Asked {
  readonly id: number;
  readonly sheet: string;
  readonly at: string;
  readonly overrides: Overrides;
  readonly phase: "quick" | "full";
  /** seed and number of draws of a full answer */
  readonly sampling: Sampling;
  /** the job, when it has changed since the last message */
  readonly document?: JobDocument;
}

let view: JobView | undefined;
/** While a value is dragged a slow sheet takes fewer draws, so that the curve still follows the hand; the full answer takes them all. */
const quickAimMs = 7;
const msPerDraw = new Map<string, number>();
self.onmessage = (e: MessageEvent<Asked>) => {
  const { id, sheet, at, overrides, phase, sampling } = e.data;
  if (e.data.document) view = viewOf(e.data.document);
  const s = sheetById(sheet);
  if (!view || !s) return;
  const quick = phase === "quick";
  const started = performance.now();
  const draws = Math.max(80, Math.min(200, Math.round(quickAimMs / (msPerDraw.get(sheet) ?? 0.1))));
  const result = answer(s, benchOf(view, at), { overrides, quick, ...sampling, ...(quick ? { draws } : {}) });
  if (quick && result.ok) msPerDraw.set(sheet, (performance.now() - started) / result.value.draws);
  self.postMessage({ id, phase, result });
};
