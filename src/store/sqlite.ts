import { mkdirSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join, resolve } from "node:path";
import Database from "better-sqlite3";
import { Kysely, SqliteDialect } from "kysely";
import { repository } from "./repository";
import { type JobStore, StoreError } from "./store";
import { migrateTables, type Tables } from "./tables";

/** Where jobs are kept on this machine: FETTLE_STORE, else the user's data folder. */
export const storePath = (env: Readonly<Record<string, string | undefined>> = process.env): string =>
  env.FETTLE_STORE ? resolve(env.FETTLE_STORE) : join(env.XDG_DATA_HOME ?? join(homedir(), ".local", "share"), "fettle", "jobs.db");

/**
 * Opens the store in a SQLite file, making it where there is none. Write-ahead log, synced at every commit; a second process waits its turn.
 *
 * @param path file
 * @param now clock, ISO 8601
 * @param largestPages most pages of the file, where it is to be kept small; the store is full beyond them
 * @returns the store
 * @throws {StoreError} when the file can't be opened or written
 */
export async function openSqlite(
  path: string,
  now: () => string = () => new Date().toISOString(),
  largestPages?: number,
): Promise<JobStore> {
  const explain = explainer(path);
  try {
    mkdirSync(dirname(path), { recursive: true });
    const raw = new Database(path, { timeout: 10_000 });
    raw.pragma("journal_mode = WAL");
    raw.pragma("synchronous = FULL");
    raw.pragma("foreign_keys = ON");
    if (largestPages) raw.pragma(`max_page_count = ${largestPages}`);
    const db = new Kysely<Tables>({ dialect: new SqliteDialect({ database: raw }) });
    await prepare(db, raw);
    return repository({ db, now, explain });
  } catch (error) {
    throw error instanceof StoreError ? error : explain(error);
  }
}

/** Makes or brings up to date the tables, all or nothing: a second process that starts at once waits, and finds it done. */
async function prepare(db: Kysely<Tables>, raw: Database.Database): Promise<void> {
  if (raw.prepare("select count(*) as n from sqlite_master where name = 'job_list'").pluck().get() === 1) return;
  raw.exec("begin immediate");
  try {
    await migrateTables(db, "sqlite");
    raw.exec("commit");
  } catch (error) {
    if (raw.inTransaction) raw.exec("rollback");
    throw error;
  }
}

function explainer(path: string): (error: unknown) => Error {
  return (error) => {
    const code = String((error as { code?: string }).code ?? "");
    const said = error instanceof Error ? error.message : String(error);
    if (code === "SQLITE_CONSTRAINT_UNIQUE" && said.includes("job.name"))
      return new StoreError("exists", "a job of that name exists already: choose another name");
    if (code === "SQLITE_CONSTRAINT_PRIMARYKEY" && said.includes("job.id"))
      return new StoreError("exists", "this job is in the store already");
    if (code === "SQLITE_FULL" || code === "ENOSPC")
      return new StoreError("full", `the disk that holds ${path} is full: nothing was recorded; make room and record it again`);
    if (code.startsWith("SQLITE_READONLY") || code === "EACCES" || code === "EROFS" || code === "SQLITE_CANTOPEN" || code === "EPERM")
      return new StoreError(
        "read-only",
        `the store ${path} can't be written: check who may write there, or set FETTLE_STORE to another file`,
      );
    if (code.startsWith("SQLITE_BUSY"))
      return new StoreError("busy", `the store ${path} is in use by another process that does not let go: try again`);
    if (code === "SQLITE_NOTADB" || code.startsWith("SQLITE_CORRUPT"))
      return new StoreError("unreadable", `${path} is no store of Fettle's, or is damaged: it was left as it is`);
    if (code === "ENOTDIR" || code === "EEXIST")
      return new StoreError("read-only", `the folder of the store ${path} can't be made: set FETTLE_STORE to another file`);
    return error instanceof Error ? error : new Error(said);
  };
}
