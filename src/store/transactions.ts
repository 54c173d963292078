import type { Kysely, Transaction } from "kysely";
import { InputError } from "../units/issue";
import { StoreError } from "./store";
import type { Tables } from "./tables";

export interface Engine {
  readonly db: Kysely<Tables>;
  readonly now: () => string;
  /** a clock that only goes on, ms: by it the waiting for another process is measured */
  readonly clockMs?: () => number;
  /** turns the engine's own errors into ours */
  readonly explain: (error: unknown, name?: string) => Error;
  /** why nothing can be written, where the store can only be read */
  readonly refuses?: StoreError;
}
/** How long a call waits, in all, for another process that holds the store. */
const patienceMs = 10_000;

/** How a store is asked: each call with its errors said in our words, each change as one transaction. */
export interface Transactions {
  readonly db: Kysely<Tables>;
  readonly now: () => string;
  readonly explain: Engine["explain"];
  readonly guard: <T>(work: () => Promise<T>) => Promise<T>;
  readonly write: <T>(work: () => Promise<T>) => Promise<T>;
  readonly transact: <T>(work: (tx: Transaction<Tables>) => Promise<T>) => Promise<T>;
}

/**
 * How a store is asked.
 *
 * @param engine the database, its clock and its errors
 * @returns calls that wait for another process that holds the store, and refuse to write where it can only be read
 */
export function transactions(engine: Engine): Transactions {
  const { db, now, explain, clockMs = () => performance.now() } = engine;
  /** Says errors in our words. While another process holds the store it is tried again, and others have their turn meanwhile. */
  const guard = async <T>(work: () => Promise<T>): Promise<T> => {
    const startedMs = clockMs();
    for (;;) {
      try {
        return await work();
      } catch (error) {
        const said = error instanceof InputError ? error : engine.explain(error);
        if (!(said instanceof StoreError) || said.code !== "busy" || clockMs() - startedMs >= patienceMs) throw said;
        await new Promise((r) => setTimeout(r, 40));
      }
    }
  };
  const write = <T>(work: () => Promise<T>): Promise<T> => (engine.refuses ? Promise.reject(engine.refuses) : guard(work));
  /** One transaction. Where the engine has rolled back by itself (a full disk), the rollback fails too: the first error is the one to tell. */
  const transact = async <T>(work: (tx: Transaction<Tables>) => Promise<T>): Promise<T> => {
    let first: unknown;
    try {
      return await db.transaction().execute((tx) =>
        work(tx).catch((error) => {
          first = error;
          throw error;
        }),
      );
    } catch (error) {
      throw first ?? error;
    }
  };
  return { db, now, explain, guard, write, transact };
}
