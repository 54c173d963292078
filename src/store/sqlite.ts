import { randomBytes } from "node:crypto";
import { closeSync, existsSync, linkSync, mkdirSync, openSync, renameSync, rmSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join, resolve } from "node:path";
import Database from "better-sqlite3";
import { Kysely } from "kysely";
import { copyBefore } from "./copy-before";
import { codeOf, explainer } from "./explain";
import { hasLog, identify, mayWrite } from "./identify";
import { markInFile } from "./marks";
import { copyForReading } from "./reading-copy";
import { repository } from "./repository";
import { migrateTables, migrationNames } from "./schema-history";
import { SqliteFileDialect } from "./sqlite-driver";
import { type Erased, type JobStore, StoreError } from "./store";
import type { Tables } from "./tables";

/** Where jobs are kept on this machine: FETTLE_STORE, else the user's data folder. */
export const storePath = (env: Readonly<Record<string, string | undefined>> = process.env): string =>
  env.FETTLE_STORE ? resolve(env.FETTLE_STORE) : join(env.XDG_DATA_HOME ?? join(homedir(), ".local", "share"), "fettle", "jobs.db");

export interface OpeningFile {
  /** most pages of the file, where it is to be kept small; the store is full beyond them */
  readonly largestPages?: number;
  /** hears in words that a store of an earlier Fettle was copied, and where to */
  readonly tell?: ((said: string) => void) | undefined;
}
/**
 * Opens the store in a SQLite file, making it where there is none, for this person alone. Write-ahead log, synced at every commit; a second process
 * waits its turn. A store that can't be written is opened to be read: writing is refused, in words.
 *
 * @param path file
 * @param now clock, ISO 8601
 * @param how how large it may be, and who hears that it was brought up to date
 * @returns the store
 * @throws {StoreError} when the file can't be opened, is not ours, or is a newer Fettle's: it is left as it was
 */
export async function openSqlite(
  path: string,
  now: () => string = () => new Date().toISOString(),
  { largestPages, tell }: OpeningFile = {},
): Promise<JobStore> {
  const explain = explainer(path);
  try {
    const found = identify(path);
    if (found === "none") await make(path);
    else if (!mayWrite(path)) return await openReading(path, now, explain(Object.assign(new Error(), { code: "EROFS" })));
    try {
      // told whether or not what follows comes to its end: the copy is there
      const copied = found === "earlier" ? await copyBefore(path, now()) : undefined;
      if (copied !== undefined) tell?.(copied);
      return await openWriting(path, now, largestPages);
    } catch (error) {
      const said = explain(error);
      // the disk is full, or turned read-only: what is there can still be read
      if (!(said instanceof StoreError) || !["full", "read-only", "failing"].includes(said.code)) throw said;
      return await openReading(path, now, said);
    }
  } catch (error) {
    throw explain(error);
  }
}

/** An erased job still stands in the log of what was written earlier: that is emptied too, where nobody else reads it at this moment. */
function erasedOf<E extends Pick<Erased, "tracesLeft">>(raw: Database.Database, erased: E): E {
  const [{ busy }] = raw.pragma("wal_checkpoint(TRUNCATE)") as [{ busy: number }];
  return { ...erased, tracesLeft: busy !== 0 };
}

/** A database asked through the query library. */
export const kyselyOf = (raw: Database.Database): Kysely<Tables> => new Kysely<Tables>({ dialect: new SqliteFileDialect(raw) });

async function openWriting(path: string, now: () => string, largestPages?: number): Promise<JobStore> {
  const raw = new Database(path, { fileMustExist: true, timeout: 10_000 });
  try {
    raw.pragma("journal_mode = WAL");
    raw.pragma("synchronous = FULL");
    raw.pragma("foreign_keys = ON");
    // what is deleted is written over, not only let go
    raw.pragma("secure_delete = ON");
    if (largestPages) raw.pragma(`max_page_count = ${largestPages}`);
    const db = kyselyOf(raw);
    await bringUpToDate(db, raw);
    // from here on the repository waits, so that a held store does not hold up everything else
    raw.pragma("busy_timeout = 50");
    const store = repository({ db, now, explain: explainer(path), markOf: markInFile });
    // what asked nothing has not taken the connection over, and does not close it
    return {
      ...store,
      retention: () => {
        const kept = store.retention();
        return { ...kept, clearOut: async (...which) => erasedOf(raw, await kept.clearOut(...which)) };
      },
      erase: async (...which) => erasedOf(raw, await store.erase(...which)),
      close: () => store.close().finally(() => raw.close()),
    };
  } catch (error) {
    raw.close();
    throw error;
  }
}

/**
 * Opens a store to be read alone, from a copy, so that nothing is written where it lies.
 *
 * @param path file
 * @param now clock
 * @param why what is said when something is to be written
 */
export async function openReading(path: string, now: () => string, why: Error): Promise<JobStore> {
  const { raw, drop } = copyForReading(path, hasLog(path));
  const db = kyselyOf(raw);
  await bringUpToDate(db, raw);
  const refuses = why instanceof StoreError ? why : new StoreError("read-only", why.message);
  const store = repository({ db, now, explain: explainer(path), markOf: markInFile, refuses });
  return { ...store, close: () => store.close().finally(drop) };
}

/** Makes or brings up to date the tables, all or nothing: a second process that starts at once waits, and finds it done. */
export async function bringUpToDate(db: Kysely<Tables>, raw: Database.Database): Promise<void> {
  const has = raw.prepare("select 1 from sqlite_master where name = ?").pluck();
  const latest = migrationNames[migrationNames.length - 1];
  if (has.get("kysely_migration") === 1 && raw.prepare("select 1 from kysely_migration where name = ?").pluck().get(latest) === 1) return;
  raw.exec("begin immediate");
  try {
    await migrateTables(db, "sqlite");
    raw.exec("commit");
  } catch (error) {
    if (raw.inTransaction) raw.exec("rollback");
    throw error;
  }
}

/** Makes a new store beside its place and puts it there whole: nobody meets one half made, and one that is there already stays. */
async function make(path: string): Promise<void> {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  const beside = `${path}.new-${randomBytes(4).toString("hex")}`;
  try {
    closeSync(openSync(beside, "wx", 0o600));
    const raw = new Database(beside);
    try {
      raw.pragma("journal_mode = WAL");
      await bringUpToDate(kyselyOf(raw), raw);
    } finally {
      raw.close();
    }
    putInPlace(beside, path);
  } finally {
    for (const end of ["", "-wal", "-shm"]) rmSync(`${beside}${end}`, { force: true });
  }
}
function putInPlace(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    const code = codeOf(error);
    if (code === "EEXIST") return;
    // a file system without links
    if (!["EPERM", "ENOTSUP", "EOPNOTSUPP", "ENOSYS", "EMLINK"].includes(code)) throw error;
    if (!existsSync(to)) renameSync(from, to);
  }
}
