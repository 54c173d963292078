import { createHash } from "node:crypto";
import { type Kysely, sql, type Transaction } from "kysely";
import type { StoredFile } from "./store";
import type { Tables } from "./tables";

type Db = Kysely<Tables>;
type Tx = Transaction<Tables>;

/** By what bytes are kept once, however many jobs point at them. Source: FIPS 180-4 (SHA-256), by Node.js. */
export const sha256Of = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

/** Step of the schema's history since which bytes are kept once. */
export const contentStep = "0008-content";
/** Whether a store's files point at bytes that are kept once; before that each had its own. */
export const keepsOnce = async (db: Db): Promise<boolean> =>
  (await sql`select 1 from kysely_migration where name = ${contentStep}`.execute(db)).rows.length > 0;

/** Keeps bytes, unless they are there; where those that are there have been damaged, these take their place. */
async function putContent(tx: Tx, row: { readonly sha256: string; readonly bytes: Uint8Array }): Promise<void> {
  await tx
    .insertInto("content")
    .values(row)
    // taken even where it stays as it is, so that nobody removes it before the file that points at it is there
    .onConflict((c) =>
      c
        .column("sha256")
        .doUpdateSet((eb) => ({ bytes: eb.ref("excluded.bytes") }))
        .whereRef("content.bytes", "<>", "excluded.bytes"),
    )
    .execute();
}

/**
 * Puts files to a job: their bytes once, and a pointer of the job's own to each.
 *
 * @param tx a transaction that has the job
 * @param jobId the job's
 * @param files what is put; a hash that the job has already stays as it is
 */
export async function putFiles(tx: Tx, jobId: string, files: readonly StoredFile[]): Promise<void> {
  for (const { hash, name, media, bytes } of files) {
    const sha256 = sha256Of(bytes);
    const there = await tx.selectFrom("file").select("sha256").where("job_id", "=", jobId).where("hash", "=", hash).executeTakeFirst();
    if (there !== undefined && there.sha256 !== sha256) continue;
    await putContent(tx, { sha256, bytes });
    if (there === undefined) await tx.insertInto("file").values({ job_id: jobId, hash, name, media, sha256 }).execute();
  }
}

/** Bytes that a job's files point at, by their digests. */
export const pointedAt = async (db: Db, jobId: string): Promise<readonly string[]> =>
  (await db.selectFrom("file").select("sha256").distinct().where("job_id", "=", jobId).orderBy("sha256").execute()).map((f) => f.sha256);

/**
 * Removes bytes that no file points at any more.
 *
 * @param tx the transaction in which pointers were removed
 * @param which the digests that they had; of these alone, those that another job's file points at stay
 * @param locksRows whether the engine has others write at the same time: each is taken first, so that whoever is about to point at it is waited for
 * @returns how many bytes went
 */
export async function dropUnpointed(tx: Tx, which: readonly string[], locksRows: boolean): Promise<number> {
  let bytesCount = 0;
  for (const sha256 of which) {
    if (locksRows) await tx.selectFrom("content").select("sha256").where("sha256", "=", sha256).forUpdate().execute();
    const held = await tx.selectFrom("file").select("hash").where("sha256", "=", sha256).limit(1).executeTakeFirst();
    if (held !== undefined) continue;
    const size = sql<number>`length(bytes)`.as("size");
    const gone = await tx.selectFrom("content").select(size).where("sha256", "=", sha256).executeTakeFirst();
    bytesCount += Number(gone?.size ?? 0);
    await tx.deleteFrom("content").where("sha256", "=", sha256).execute();
  }
  return bytesCount;
}

/** A job's files with their bytes, a row each, as every version of the tables has them. */
export interface FileRow extends StoredFile {
  readonly job_id: string;
}
/**
 * Some files of a job as they stand, for a checksum or to be carried.
 *
 * @param db the database
 * @param once whether its bytes are kept once
 * @param jobId the job's
 * @param hashes which
 */
export function fileRows(db: Db, once: boolean, jobId: string, hashes: readonly string[]): Promise<FileRow[]> {
  if (!once)
    return db
      .withTables<{ file: FileRow }>()
      .selectFrom("file")
      .select(["job_id", "hash", "name", "media", "bytes"])
      .where("job_id", "=", jobId)
      .where("hash", "in", hashes)
      .execute();
  return db
    .selectFrom("file")
    .innerJoin("content", "content.sha256", "file.sha256")
    .select(["job_id", "hash", "name", "media", "bytes"])
    .where("job_id", "=", jobId)
    .where("hash", "in", hashes)
    .execute();
}

/** Puts a file with bytes of its own, as the tables were before. */
export const putAsBefore = (tx: Tx, { job_id, hash, name, media, bytes }: FileRow): Promise<unknown> =>
  sql`insert into file (job_id, hash, name, media, bytes) values (${job_id}, ${hash}, ${name}, ${media}, ${bytes})`.execute(tx);
