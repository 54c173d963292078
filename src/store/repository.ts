import { shopKeeping } from "./accounts/shop-keeping";
import { changeJobs } from "./change-jobs";
import { retentionIn } from "./kept/retention";
import { readJobs } from "./read-jobs";
import type { JobStore } from "./store";
import { type Engine, transactions } from "./transactions";

/** The repositories, written once for both dialects. Every change is one transaction whose first statement takes the job's row. */
export function repository(engine: Engine): JobStore {
  const on = transactions(engine);
  return {
    ...readJobs(on),
    ...changeJobs(on),
    retention: () => retentionIn(on),
    keeping: (hashed) => shopKeeping(on, hashed),
    close: () => engine.db.destroy(),
  };
}
