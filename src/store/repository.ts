import { shopKeeping } from "./accounts/shop-keeping";
import { changeJobs } from "./change-jobs";
import { retentionIn } from "./kept/retention";
import { readingOnce, readJobs } from "./read-jobs";
import type { JobStore } from "./store";
import { type Engine, transactions } from "./transactions";

/** The repositories, written once for both dialects. Every change is one transaction whose first statement takes the job's row. */
export function repository(engine: Engine): JobStore {
  const on = transactions(engine);
  const kept = readingOnce();
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
    close: () => engine.db.destroy(),
  };
}
