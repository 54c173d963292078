import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import type { Accompanied, ErrandName, Errands, Given, Gives } from "../../desk/errand";
import { InputError, type Issue } from "../../units/issue";

/** What a thread says of the errand it is on. */
export type Heard =
  | { readonly kind: "done"; readonly value: unknown }
  | { readonly kind: "issues"; readonly issues: readonly Issue[] }
  | { readonly kind: "failed"; readonly error: unknown }
  | { readonly kind: "progress"; readonly said: string };
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
    cards: 120,
    dialCard: 120,
    converterCard: 120,
    dialScale: 120,
  },
};
const said: Readonly<Record<ErrandName, string>> = {
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
  cards: "the record cards",
  dialCard: "the calibration card",
  converterCard: "the converter's card",
  dialScale: "the dial scale",
};
/** These never take the last thread: a file or a card is not to wait for them. */
const slow: readonly ErrandName[] = ["report", "record", "parts", "proof", "sheet"];

interface Waiting {
  readonly name: ErrandName;
  readonly given: unknown;
  readonly beside: Accompanied;
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: unknown) => void;
}
const stopped = (path: string, code: string, read: string, expected: string): InputError =>
  new InputError([{ path, code, read, expected }]);

/** The built thread beside this bundle; undefined where the sources run as they are. */
export function builtThread(): string | undefined {
  const path = fileURLToPath(new URL("./errand-thread.mjs", import.meta.url));
  return existsSync(path) ? path : undefined;
}

export interface ErrandThreads extends Errands {
  /** starts a thread before there is anything to do: it loads while others think */
  readonly ready: () => void;
  readonly close: () => Promise<void>;
}

/**
 * Does errands on a few threads, each within limits of time and memory: one that runs past them is ended with its thread, and said; nothing else
 * waits for it or falls with it.
 *
 * @param script the built thread
 * @param limits threads, memory of each, seconds of each errand
 * @returns the errands, and how to end the threads
 */
export function errandThreads(script: string, limits: ThreadLimits = usualLimits): ErrandThreads {
  const queue: Waiting[] = [];
  const idle: Worker[] = [];
  const busy = new Map<Worker, Waiting>();

  const made = (): Worker => new Worker(script, { resourceLimits: { maxOldGenerationSizeMb: limits.memoryMb } });
  const free = (): Waiting | undefined => {
    if (busy.size >= limits.threads) return undefined;
    const slowNow = [...busy.values()].filter((w) => slow.includes(w.name)).length;
    const i = queue.findIndex((w) => !slow.includes(w.name) || slowNow < Math.max(1, limits.threads - 1));
    return i < 0 ? undefined : queue.splice(i, 1)[0];
  };
  const next = (): void => {
    for (let w = free(); w; w = free()) start(w);
  };
  function start(w: Waiting): void {
    const worker = idle.pop() ?? made();
    busy.set(worker, w);
    worker.ref();
    const end = (finish: () => void, keep: boolean): void => {
      if (!busy.delete(worker)) return;
      clearTimeout(timer);
      w.beside.signal?.removeEventListener("abort", give);
      worker.off("message", hear).off("error", fall);
      // an error that comes while a thread is ended has no one to hear it
      if (!keep) worker.on("error", () => undefined);
      worker.unref();
      if (keep) idle.push(worker);
      else void worker.terminate();
      finish();
      next();
    };
    const give = (): void => end(() => w.reject(stopped(said[w.name], "stopped", "", "you to ask again: it was stopped")), false);
    const seconds = limits.seconds[w.name];
    const late = (): void =>
      end(
        () =>
          w.reject(
            stopped(
              said[w.name],
              "too-long",
              `more than ${seconds} s of work`,
              `something that takes less than ${seconds} s: ask for less, or something simpler`,
            ),
          ),
        false,
      );
    const timer = setTimeout(late, seconds * 1000);
    const hear = (m: Heard): void => {
      if (m.kind === "progress") w.beside.progress?.(m.said);
      else if (m.kind === "done") end(() => w.resolve(m.value), true);
      else if (m.kind === "issues") end(() => w.reject(new InputError(m.issues)), true);
      else end(() => w.reject(m.error), true);
    };
    const fall = (e: NodeJS.ErrnoException): void =>
      end(
        () =>
          w.reject(
            e.code === "ERR_WORKER_OUT_OF_MEMORY"
              ? stopped(
                  said[w.name],
                  "too-much",
                  `more than ${limits.memoryMb} MB`,
                  `something that fits in ${limits.memoryMb} MB: ask for less at once`,
                )
              : e,
          ),
        false,
      );
    worker.on("message", hear).on("error", fall);
    w.beside.signal?.addEventListener("abort", give);
    if (w.beside.signal?.aborted) give();
    else worker.postMessage({ name: w.name, given: w.given });
  }
  const run = <N extends ErrandName>(name: N, given: Given<N>, beside: Accompanied = {}): Promise<Gives<N>> =>
    new Promise((resolve, reject) => {
      if (queue.length >= limits.waiting)
        return reject(stopped(said[name], "busy", `${queue.length} others that wait`, "fewer at once: ask again when they are done"));
      queue.push({ name, given, beside, resolve: (v) => resolve(v as Gives<N>), reject });
      next();
    });
  return {
    run,
    ready: () => {
      const worker = made();
      worker.unref();
      idle.push(worker);
    },
    close: async () => {
      queue.length = 0;
      await Promise.all([...idle, ...busy.keys()].map((w) => w.terminate()));
    },
  };
}
