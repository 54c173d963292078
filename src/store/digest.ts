import { createHash, type Hash } from "node:crypto";
import type { Kysely } from "kysely";
import { fileRows, keepsOnce } from "./content";
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
  (table: keyof Tables, rows: readonly object[]): void => {
    const lines = rows.map((r) => lineOf(table, { ...r }));
    for (const line of table === "entry" ? lines : lines.sort()) to.update(line);
  };
/** Files of a job by their hashes, some at a time: each may be large. */
async function bySome(db: Db, table: "file" | "file_aside", id: string, work: (hashes: readonly string[]) => Promise<void>): Promise<void> {
  const all = (await db.selectFrom(table).select("hash").distinct().where("job_id", "=", id).orderBy("hash").execute()).map((f) => f.hash);
  for (let i = 0; i < all.length; i += filesAtOnce) await work(all.slice(i, i + filesAtOnce));
}

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
  const once = await keepsOnce(db);
  await bySome(db, "file", id, async (some) => add("file", await fileRows(db, once, id, some)));
  await bySome(db, "file_aside", id, async (some) =>
    add("file_aside", await db.selectFrom("file_aside").selectAll().where("job_id", "=", id).where("hash", "in", some).execute()),
  );
  return hash.digest("hex");
}
