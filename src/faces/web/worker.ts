import { answer } from "../../ask/answer";
import type { Answer } from "../../ask/answered";
import type { Overrides } from "../../ask/resolved";
import type { JobDocument } from "../../job/document";
import { benchOf, type JobView, viewOf } from "../../job/view";
import { sheetById } from "../../sheets/index";
import type { Sampling } from "../../units/draws";
import { bad, clip, type Read } from "../../units/issue";
import { spared } from "./sheet/spared";

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
  /** which answer of this worker's whoever asks has whole: what is the same is not sent again */
  readonly holds?: number;
}
/** A job that is about to be asked about. */
interface Readied {
  readonly ready: JobDocument;
}

let view: JobView | undefined;
/** While a value is dragged a slow sheet takes fewer draws, so that the curve still follows the hand; the full answer takes them all. */
const quickAimMs = 7;
const msPerDraw = new Map<string, number>();
let posted: { readonly id: number; readonly result: Read<Answer> } | undefined;
self.onmessage = (e: MessageEvent<Asked | Readied>) => {
  if ("ready" in e.data) {
    view = viewOf(e.data.ready);
    return;
  }
  const { id, holds } = e.data;
  let result: Read<Answer>;
  try {
    result = answered(e.data);
  } catch (error) {
    // whatever goes wrong is an answer: nobody waits for one that doesn't come
    result = notAnswered(e.data.sheet, String(error));
  }
  const sent = holds !== undefined && posted?.id === holds ? spared(result, posted.result) : { value: result };
  posted = { id, result };
  self.postMessage({ id, sent });
};
const notAnswered = (sheet: string, read: string): Read<Answer> =>
  bad(`sheet ${sheet}`, "not-worked-out", clip(read), "a question and a job that can be worked out: load the page again");
function answered({ sheet, at, overrides, phase, sampling, document }: Asked): Read<Answer> {
  if (document) view = viewOf(document);
  const s = sheetById(sheet);
  if (!view || !s) return notAnswered(sheet, s ? "no job" : "no such question");
  const quick = phase === "quick";
  const started = performance.now();
  const draws = Math.max(80, Math.min(200, Math.round(quickAimMs / (msPerDraw.get(sheet) ?? 0.1))));
  const result = answer(s, benchOf(view, at), { overrides, quick, ...sampling, ...(quick ? { draws } : {}) });
  if (quick && result.ok) msPerDraw.set(sheet, (performance.now() - started) / result.value.draws);
  return result;
}
