import Database from "better-sqlite3";
import { explainer } from "./explain";
import { identify, openLooking } from "./identify";
import { StoreError } from "./store";

/**
 * Copies a whole store, as it stands at one moment, however many are writing to it; the copy is read through before it counts.
 *
 * @param path the store
 * @param to file of the copy, which this person's program has just made
 * @param damagedToo whether a damaged store is copied as it is
 * @returns number of jobs in the copy
 * @throws {StoreError} where there is no store, or where the copy is not whole
 */
export async function backupStore(path: string, to: string, damagedToo = false): Promise<number> {
  try {
    if (identify(path) === "none") throw new StoreError("no-job", `there is no store at ${path} yet`);
    const { raw, drop } = openLooking(path);
    try {
      await raw.backup(to);
    } finally {
      drop();
    }
    const copy = new Database(to, { readonly: true });
    try {
      const said = copy.pragma("integrity_check", { simple: true });
      if (said !== "ok" && !damagedToo)
        throw new StoreError("unreadable", `the store ${path} is damaged (${said}): fettle check-store tells more`);
      return copy.prepare("select count(*) from job").pluck().get() as number;
    } finally {
      copy.close();
    }
  } catch (error) {
    throw explainer(path)(error);
  }
}
