import Database from "better-sqlite3";
import { carryAll } from "./carry";
import { postgresExplainer } from "./explain-postgres";
import { identifyShop, shopAt } from "./postgres";
import { migrateTables } from "./schema-history";
import { kyselyOf } from "./sqlite";
import { StoreError } from "./store";
import { whereIs } from "./where-is";

/**
 * Copies the shop's database into a file, as it stands at one moment: one reading transaction sees the same jobs from first to last, whoever writes. A shop of
 * an earlier Fettle is copied as it is.
 *
 * @param url the shop's
 * @param to an empty file, or none
 * @returns number of jobs
 * @throws {StoreError} where there is no shop, or a job did not come over word for word
 */
export async function backupShop(url: string, to: string): Promise<number> {
  const where = whereIs(url);
  const { db, close } = shopAt(url);
  const raw = new Database(to);
  const copy = kyselyOf(raw);
  try {
    const found = await identifyShop(db, where);
    if (found.is === "none") throw new StoreError("no-job", `there are no jobs in ${where} yet`);
    await migrateTables(copy, "sqlite", found.is === "earlier" ? found.last : undefined);
    const read = db.transaction().setIsolationLevel("repeatable read").setAccessMode("read only");
    const { jobsCount } = await read.execute((from) => copy.transaction().execute((into) => carryAll(from, into)));
    return jobsCount;
  } catch (error) {
    throw postgresExplainer(where)(error);
  } finally {
    await copy.destroy();
    await close();
  }
}
