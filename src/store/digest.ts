import { createHash, type Hash } from "node:crypto";
import type { Kysely } from "kysely";
import type { Tables } from "./tables";

type Db = Kysely<Tables>;
const filesAtOnce = 20;

/** A row as a line of JSON with its table before it; bytes stand as a digest of their own. */
function lineOf(table: keyof Tables, row: Readonly<Record<string, unknown>>): string {
  const cell = (v: unknown): unknown => (v instanceof Uint8Array ? createHash("sha256").update(v).digest("hex") : v);
  const cells = Object.keys(row)
    .sort()
    .map((k) => [k, cell(row[k])]);
  return `${table} ${JSON.stringify(cells)}\n`;
}
/** Adds rows of a table to a digest; those that have no order of their own by their lines. */
const adder =
  (to: Hash) =>
  (table: keyof Tables, rows: readonly Readonly<Record<string, unknown>>[]): void => {
    const lines = rows.map((r) => lineOf(table, r));
    for (const line of table === "entry" ? lines : lines.sort()) to.update(line);
  };

/**
 * A checksum of all that is stored of a job, the same in whatever home it lies.
 *
 * @param db the database, or a transaction in it
 * @param id the job's
 * @returns SHA-256 as 64 hexadecimal digits. Source: FIPS 180-4, by Node.js
 */
export async function jobDigest(db: Db, id: string): Promise<string> {
  const hash = createHash("sha256");
  const add = adder(hash);
  add("job", await db.selectFrom("job").selectAll().where("id", "=", id).execute());
  add("entry", await db.selectFrom("entry").selectAll().where("job_id", "=", id).orderBy("seq").execute());
  add("aside", await db.selectFrom("aside").selectAll().where("job_id", "=", id).execute());
  for (const table of ["file", "file_aside"] as const) {
    const hashes = await db.selectFrom(table).select("hash").distinct().where("job_id", "=", id).orderBy("hash").execute();
    for (let i = 0; i < hashes.length; i += filesAtOnce) {
      const some = hashes.slice(i, i + filesAtOnce).map((f) => f.hash);
      const rows = await db
        .selectFrom(table as "file")
        .selectAll()
        .where("job_id", "=", id)
        .where("hash", "in", some)
        .execute();
      add(table, rows);
    }
  }
  return hash.digest("hex");
}
