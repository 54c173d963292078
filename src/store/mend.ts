import Database from "better-sqlite3";
import { type Checked, lookThrough } from "./check";
import { explainer } from "./explain";
import type { Home } from "./home";
import { entryOf } from "./rows";
import { openSqlite } from "./sqlite";
import { StoreError } from "./store";
import type { Tables } from "./tables";

/**
 * Sets aside what can't be read, so that it is in nobody's way: nothing is deleted, and an export carries it along. A backup comes first; that is the
 * caller's.
 *
 * @param path file of the store
 * @param now clock, ISO 8601
 * @returns what was set aside, and what is still wrong after it
 * @throws {StoreError} where the store can't be written
 */
export async function mendStore(
  path: string,
  now: () => string,
): Promise<{ readonly setAside: readonly string[]; readonly after: Checked }> {
  try {
    // brought up to date first: it is the tables of this version that things are set aside in
    await (await openSqlite(path, now)).close();
    const raw = new Database(path, { fileMustExist: true, timeout: 10_000 });
    try {
      raw.pragma("synchronous = FULL");
      const before = lookThrough(raw);
      if (before.wrong.some((w) => w.what === "database")) raw.exec("reindex");
      const setAside: string[] = [];
      raw.transaction(() => {
        for (const w of lookThrough(raw).wrong) {
          if (w.at?.seq !== undefined) asideEntry(raw, w.at.jobId, w.at.seq, now());
          else if (w.at?.hash !== undefined) asideFile(raw, w.at.jobId, w.at.hash, now());
          else continue;
          setAside.push(w.says);
        }
      })();
      return { setAside, after: lookThrough(raw) };
    } finally {
      raw.close();
    }
  } catch (error) {
    throw explainer(path)(error);
  }
}

function asideEntry(raw: Database.Database, jobId: string, seq: number, at: string): void {
  const { lost } = entryOf(raw.prepare("select * from entry where job_id = ? and seq = ?").get(jobId, seq) as Tables["entry"]);
  if (!lost) return;
  raw.prepare("insert into aside values (?, ?, ?, ?, ?, ?)").run(jobId, seq, lost.id, lost.why, lost.stored, at);
  raw.prepare("delete from entry where job_id = ? and seq = ?").run(jobId, seq);
  raw.prepare("update job set revision = revision + 1 where id = ?").run(jobId);
}
function asideFile(raw: Database.Database, jobId: string, hash: string, at: string): void {
  raw
    .prepare(
      "insert into file_aside select job_id, hash, name, media, bytes, ?, ? from file join content using (sha256) where job_id = ? and hash = ?",
    )
    .run("its bytes are not those that were stored", at, jobId, hash);
  const sha256 = raw.prepare("delete from file where job_id = ? and hash = ? returning sha256").pluck().get(jobId, hash);
  // every job that pointed at them has a copy aside by then
  raw.prepare("delete from content where sha256 = ? and not exists (select 1 from file where file.sha256 = content.sha256)").run(sha256);
}

/**
 * Mends the store in a file. A shop's database is not mended while others work in it: its backup is, and restored to an empty one.
 *
 * @param home the store
 * @param now clock, ISO 8601
 * @returns as `mendStore` does
 * @throws {StoreError} where it is a shop's, with the way to go
 */
export async function mendHome(home: Home, now: () => string): ReturnType<typeof mendStore> {
  if (home.kind === "file") return mendStore(home.path, now);
  throw new StoreError(
    "failing",
    "a shop's database is not mended in place: make a backup, mend that (FETTLE_STORE=backup.db fettle check-store --mend), and restore it to an empty database",
  );
}
