/** Words that tell whether a job can have changed since it was read: one that stands is not read again. */
import { type Kysely, sql } from "kysely";
import type { Tables } from "./tables";

type Db = Kysely<Tables>;
/**
 * Of a file: how often others have written to it, and how many rows this connection has changed. Whoever writes, past the program too, moves one of the two.
 *
 * @source SQLite documentation, PRAGMA data_version; sqlite3_total_changes64, which counts what goes with a job's row as well
 */
export async function markInFile(db: Db, name: string): Promise<string | undefined> {
  const { rows } = await sql<{ others: number; own: number }>`
    select v.data_version as others, total_changes() as own from pragma_data_version as v, job where job.name = ${name}`.execute(db);
  return rows.map(({ others, own }) => `${others} ${own}`)[0];
}
/**
 * Of a shop's database: which transaction wrote the job's row last, and how far the tables were brought up to date. All that changes a job writes to its row in the
 * same transaction; a job that was erased and made again is another transaction's.
 *
 * @source PostgreSQL 15 documentation, 5.5 System Columns, xmin
 */
export async function markInShop(db: Db, name: string): Promise<string | undefined> {
  const { rows } = await sql<{ mark: string }>`
    select concat_ws(' ', job.xmin, job.id, job.revision, (select count(*) from kysely_migration)) as mark from job where job.name = ${name}`.execute(
    db,
  );
  return rows.map((r) => r.mark)[0];
}
