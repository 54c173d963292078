import type { JobDocument } from "../../../job/document";

/** A worker that answers, with the job that it was given last. */
export interface Answering {
  readonly worker: Worker;
  readonly has: JobDocument | undefined;
}
const start = (): Answering => ({ worker: new Worker(new URL("worker.js", document.baseURI), { type: "module" }), has: undefined });
let spare: Answering | undefined;
/** Keeps a worker for whoever asks next; one is enough. */
function keep(made: Answering): void {
  spare = made;
  made.worker.onmessage = null;
  made.worker.onmessageerror = null;
  // one that can't be started is no spare: the next is started by whoever asks, who tells it
  made.worker.onerror = () => {
    if (spare?.worker === made.worker) spare = undefined;
  };
}
/** Starts a worker for the question that is about to be asked, and gives it the job, while nobody waits for it yet. */
export function readyForAnswers(job?: JobDocument): void {
  if (!spare) keep(start());
  if (!spare || job === undefined || spare.has === job) return;
  spare.worker.postMessage({ ready: job });
  keep({ worker: spare.worker, has: job });
}
/** A worker that answers: the one that was made ready or has rested, else another. */
export function workerForAnswers(): Answering {
  const made = spare ?? start();
  spare = undefined;
  return made;
}
/** Takes back a worker that rests: the next question finds it warm. */
export function rests(made: Answering): void {
  if (spare) made.worker.terminate();
  else keep(made);
}
