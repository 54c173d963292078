import { shopKeeping } from "./accounts/shop-keeping";
import { changeJobs } from "./change-jobs";
import { retentionIn } from "./kept/retention";
import { readJobs } from "./read-jobs";
import { type ReadOnce, readingOnce } from "./read-once";
import type { JobStore } from "./store";
import { type Engine, type Transactions, transactions } from "./transactions";

/** So often it is looked whether jobs that are held in memory are there still, ms. House rule. */
const lookEveryMs = 5000;
/** Lets go of what other processes have erased, by and by; returns how to stop. */
function forgettingGone({ db }: Transactions, kept: ReadOnce): () => void {
  const look = async (): Promise<void> => {
    const ids = [...kept.ids()];
    if (ids.length === 0) return;
    const there = await db.selectFrom("job").select("id").execute();
    kept.keepOnly(new Set(there.map((j) => j.id)));
  };
  let busy = false;
  const timer = setInterval(() => {
    if (busy) return;
    busy = true;
    // a store that is away is asked again the next time
    void look()
      .catch(() => undefined)
      .finally(() => {
        busy = false;
      });
  }, lookEveryMs);
  timer.unref();
  return () => clearInterval(timer);
}

/**
 * The repositories, written once for both dialects. Every change is one transaction whose first statement takes the job's row.
 *
 * @param engine the database
 * @param kept what was read of jobs so far
 */
export function repository(engine: Engine, kept = readingOnce()): JobStore {
  const on = transactions(engine);
  const stop = forgettingGone(on, kept);
  const { erase, ...changing } = changeJobs(on);
  return {
    ...readJobs(on, kept),
    ...changing,
    // what is gone from the store is not held in memory either
    erase: async (name, ...seen) => {
      const erased = await erase(name, ...seen);
      kept.forget(name);
      return erased;
    },
    retention: () => {
      const retention = retentionIn(on);
      return {
        ...retention,
        clearOut: async (...which) => {
          const cleared = await retention.clearOut(...which);
          for (const p of cleared.past) if (p.kind === "jobs") kept.forget(p.about);
          return cleared;
        },
      };
    },
    keeping: (hashed) => shopKeeping(on, hashed),
    close: () => {
      stop();
      return engine.db.destroy();
    },
  };
}
