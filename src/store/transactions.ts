import type { Kysely, Transaction } from "kysely";
import { InputError } from "../units/issue";
import { StoreError } from "./store-error";
import type { Tables } from "./tables";

export interface Engine {
  readonly db: Kysely<Tables>;
  readonly now: () => string;
  /** a clock that only goes on, ms: by it the waiting for another process is measured */
  readonly clockMs?: () => number;
  /** turns the engine's own errors into ours */
  readonly explain: (error: unknown, name?: string) => Error;
  /** whether others write at the same time, row by row; false where one writes at a time */
  readonly locksRows?: boolean;
  /** why nothing can be written, where the store can only be read */
  readonly refuses?: StoreError;
  /** a word on a job that is another one after anything was changed in it; undefined where there is no such job. Without it a job is read each time */
  readonly markOf?: (db: Kysely<Tables>, name: string) => Promise<string | undefined>;
}
/** How long a call waits, in all, for another process that holds the store. */
const patienceMs = 10_000;

/** What a call does; `cut` is true where an earlier try of the same call was cut off, so that nobody knows whether it was done. */
type Work<T> = (cut: boolean) => Promise<T>;

/** How a store is asked: each call with its errors said in our words, each change as one transaction. */
export interface Transactions {
  readonly db: Kysely<Tables>;
  readonly now: () => string;
  readonly locksRows: boolean;
  readonly explain: Engine["explain"];
  readonly markOf: (name: string) => Promise<string | undefined>;
  readonly guard: <T>(work: Work<T>) => Promise<T>;
  /** a change that may be tried again when it was cut off, since it finds out by itself whether it was done */
  readonly write: <T>(work: Work<T>) => Promise<T>;
  /** a change that is tried once: whoever asked looks whether it was done */
  readonly writeOnce: <T>(work: Work<T>) => Promise<T>;
  readonly transact: <T>(work: (tx: Transaction<Tables>) => Promise<T>) => Promise<T>;
}

/**
 * How a store is asked.
 *
 * @param engine the database, its clock and its errors
 * @returns calls that wait for another process that holds the store and for a server that starts again, and refuse to write where it can only be read
 */
export function transactions(engine: Engine): Transactions {
  const { db, now, explain, clockMs = () => Number(process.hrtime.bigint()) / 1e6 } = engine;
  /** Says errors in our words. While another process holds the store, or it is away, it is tried again, and others have their turn meanwhile. */
  const patiently =
    (waits: readonly StoreError["code"][]) =>
    async <T>(work: Work<T>): Promise<T> => {
      const startedMs = clockMs();
      let cut = false;
      for (;;) {
        try {
          return await work(cut);
        } catch (error) {
          const said = error instanceof InputError ? error : engine.explain(error);
          if (!(said instanceof StoreError) || !waits.includes(said.code) || clockMs() - startedMs >= patienceMs) throw said;
          cut ||= said.code === "away";
          await new Promise((r) => setTimeout(r, 40));
        }
      }
    };
  const guard = patiently(["busy", "away"]);
  const once = patiently(["busy"]);
  const refusing =
    (how: typeof guard): typeof guard =>
    (work) =>
      engine.refuses ? Promise.reject(engine.refuses) : how(work);
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
  const markOf = (name: string) => engine.markOf?.(db, name) ?? Promise.resolve(undefined);
  return {
    db,
    now,
    locksRows: engine.locksRows ?? false,
    explain,
    markOf,
    guard,
    write: refusing(guard),
    writeOnce: refusing(once),
    transact,
  };
}
