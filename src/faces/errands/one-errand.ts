import type { Worker } from "node:worker_threads";
import type { Accompanied, ErrandName } from "../../desk/errand";
import { InputError, type Issue } from "../../units/issue";
import { said, type ThreadLimits } from "./thread-limits";

/** What a thread says of the errand it is on. */
export type Heard =
  | { readonly kind: "done"; readonly value: unknown }
  | { readonly kind: "issues"; readonly issues: readonly Issue[] }
  | { readonly kind: "failed"; readonly error: unknown }
  | { readonly kind: "progress"; readonly said: string };
/** An errand that somebody waits for. */
export interface Waiting {
  readonly name: ErrandName;
  readonly given: unknown;
  readonly beside: Accompanied;
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: unknown) => void;
}
/** Why an errand came to no end, at what it works on. */
export const stopped = (path: string, code: string, read: string, expected: string): InputError =>
  new InputError([{ path, code, read, expected }]);

const tooLong = (seconds: number): readonly [string, string, string] => [
  "too-long",
  `more than ${seconds} s of work`,
  `what can be worked out in ${seconds} s: less, or simpler`,
];
const tooMuch = (mb: number): readonly [string, string, string] => [
  "too-much",
  `more than ${mb} MB`,
  `what can be worked out in ${mb} MB: less at once`,
];

/**
 * Does one errand on a thread of its own for as long as it takes. Whatever ends it ends it once: the answer, what can't be read, an error, the
 * limits, or the person.
 *
 * @param w the errand
 * @param worker the thread
 * @param limits of time and memory
 * @param ended told at the end whether the thread can be kept
 */
export function doOn(w: Waiting, worker: Worker, limits: ThreadLimits, ended: (keep: boolean) => void): void {
  let over = false;
  const end = (finish: () => void, keep: boolean): void => {
    if (over) return;
    over = true;
    clearTimeout(timer);
    w.beside.signal?.removeEventListener("abort", give);
    worker.off("message", hear).off("error", fall);
    // an error that comes while a thread is ended has no one to hear it
    if (!keep) worker.on("error", () => undefined);
    worker.unref();
    finish();
    ended(keep);
  };
  const refuse = (...[code, read, expected]: readonly [string, string, string]): void =>
    end(() => w.reject(stopped(said[w.name], code, read, expected)), false);
  const give = (): void => refuse("stopped", "", "you to ask again: it was stopped");
  const seconds = limits.seconds[w.name];
  const timer = setTimeout(() => refuse(...tooLong(seconds)), seconds * 1000);
  const hear = (m: Heard): void => {
    if (m.kind === "progress") w.beside.progress?.(m.said);
    else if (m.kind === "done") end(() => w.resolve(m.value), true);
    else if (m.kind === "issues") end(() => w.reject(new InputError(m.issues)), true);
    else end(() => w.reject(m.error), true);
  };
  const fall = (e: NodeJS.ErrnoException): void =>
    e.code === "ERR_WORKER_OUT_OF_MEMORY" ? refuse(...tooMuch(limits.memoryMb)) : end(() => w.reject(e), false);
  worker.ref();
  worker.on("message", hear).on("error", fall);
  w.beside.signal?.addEventListener("abort", give);
  if (w.beside.signal?.aborted) give();
  else worker.postMessage({ name: w.name, given: w.given });
}
