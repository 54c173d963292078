const start = (): Worker => new Worker(new URL("worker.js", document.baseURI), { type: "module" });
let spare: Worker | undefined;
/** Starts a worker for the question that is about to be asked, while its page is still on its way. */
export function readyForAnswers(): void {
  if (spare) return;
  const made = start();
  spare = made;
  // one that can't be started is no spare: the next is started by whoever asks, who tells it
  made.onerror = () => {
    if (spare === made) spare = undefined;
  };
}
/** A worker that answers: the one that was made ready, else another. */
export function workerForAnswers(): Worker {
  const made = spare ?? start();
  spare = undefined;
  return made;
}
