import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import type { Accompanied, ErrandName, Errands, Given, Gives } from "../../desk/errand";
import { doOn, stopped, type Waiting } from "./one-errand";
import { said, slow, type ThreadLimits, usualLimits } from "./thread-limits";

/** The built thread beside this bundle; undefined where the sources run as they are. */
export function builtThread(): string | undefined {
  const path = fileURLToPath(new URL("./fettle.mjs", import.meta.url));
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
  const start = (w: Waiting): void => {
    const worker = idle.pop() ?? made();
    busy.set(worker, w);
    doOn(w, worker, limits, (keep) => {
      busy.delete(worker);
      if (keep) idle.push(worker);
      else void worker.terminate();
      next();
    });
  };
  const next = (): void => {
    for (let w = free(); w; w = free()) start(w);
  };
  const run = <N extends ErrandName>(name: N, given: Given<N>, beside: Accompanied = {}): Promise<Gives<N>> =>
    new Promise((resolve, reject) => {
      if (queue.length >= limits.waiting)
        return reject(stopped(said[name], "busy", `${queue.length} others that wait`, "a little time: ask again when they are done"));
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
