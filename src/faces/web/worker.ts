import type { JobDocument } from "../../job/document";
import { benchOf, viewOf } from "../../job/view";
import { answer } from "../../sheets/answer";
import { sheetById } from "../../sheets/index";
import type { Overrides } from "../../sheets/resolve";

/** Answers sheets off the main thread: the same core as everywhere, quick or in full. */
export interface Asked {
  readonly id: number;
  readonly sheet: string;
  readonly at: string;
  readonly overrides: Overrides;
  readonly phase: "quick" | "full";
  /** the job, when it has changed since the last message */
  readonly document?: JobDocument;
}

let document: JobDocument | undefined;
self.onmessage = (e: MessageEvent<Asked>) => {
  const { id, sheet, at, overrides, phase } = e.data;
  document = e.data.document ?? document;
  const s = sheetById(sheet);
  if (!document || !s) return;
  const result = answer(s, benchOf(viewOf(document), at), { overrides, quick: phase === "quick" });
  self.postMessage({ id, phase, result });
};
