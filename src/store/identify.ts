import { accessSync, closeSync, constants, existsSync, openSync, readSync, statSync } from "node:fs";
import { dirname } from "node:path";
import Database from "better-sqlite3";
import { codeOf } from "./explain";
import { copyForReading } from "./reading-copy";
import { migrationNames } from "./schema-history";
import { StoreError } from "./store";
import { applicationId, columnsKnown } from "./tables";

const sizeOf = (path: string): number => {
  const there = existsSync(path) ? statSync(path) : undefined;
  return there?.isFile() ? there.size : 0;
};
/** Whether something was written to the store that is not in its main file yet. */
export const hasLog = (path: string): boolean => sizeOf(`${path}-wal`) > 0;

/** Whether the store and its folder may be written by this person. */
export function mayWrite(path: string): boolean {
  try {
    for (const place of [path, dirname(path)]) accessSync(place, constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

/** Opens a database to look at it: nothing of it is written, and no file stays beside it that was not there. */
export function openLooking(path: string): { readonly raw: Database.Database; readonly drop: () => void } {
  if (!mayWrite(path)) return copyForReading(path, hasLog(path));
  // with nothing in its log it may be opened as usual, and is closed as it was; else a look must not tidy the log away
  const readonly = hasLog(path) || sizeOf(`${path}-journal`) > 0;
  const raw = new Database(path, { readonly, fileMustExist: true, timeout: 10_000 });
  try {
    raw.prepare("select 1 from sqlite_master").get();
  } catch (error) {
    raw.close();
    // a full disk has no room for what stands beside an open store
    if (/^SQLITE_(IOERR|FULL|CANTOPEN)/.test(codeOf(error))) return copyForReading(path, hasLog(path));
    throw error;
  }
  return { raw, drop: () => raw.close() };
}

const foreign = (path: string, why: string) =>
  new StoreError("unreadable", `${path} is not one of Fettle's stores (${why}): it was left alone; set FETTLE_STORE to another file`);

/**
 * What stands at the path of a store, looked at before anything is written.
 *
 * @param path file
 * @returns none; a store of this version; a store of an earlier one, to be brought up to date
 * @throws {StoreError} where it is another program's, a newer Fettle's, emptied, or not as this version knows it
 */
export function identify(path: string): "none" | "current" | "earlier" {
  const head = headOf(path);
  if (head === undefined) {
    if (hasLog(path))
      throw new StoreError(
        "unreadable",
        `${path} is gone, but ${path}-wal, holding what was last written, is still there: put the store back beside it, or move that file away to start afresh`,
      );
    return "none";
  }
  if (head.length === 0) throw emptied(path);
  if (head.toString("latin1", 0, 15) !== "SQLite format 3") throw foreign(path, "another kind of file");
  const id = head.readUInt32BE(68);
  if (id !== 0 && id !== applicationId) throw foreign(path, "another program's database");
  const { raw: db, drop } = openLooking(path);
  try {
    const tables = new Set(db.prepare("select name from sqlite_master where type = 'table'").pluck().all() as string[]);
    if (tables.size === 0) throw emptied(path);
    if (!["job", "entry", "file", "kysely_migration"].every((t) => tables.has(t)))
      throw foreign(path, id === 0 ? "another program's database" : "tables are missing");
    const done = new Set(db.prepare("select name from kysely_migration").pluck().all() as string[]);
    const newer = [...done].find((name) => !migrationNames.includes(name));
    if (newer !== undefined)
      throw new StoreError("newer", `the store ${path} was written by a newer Fettle: it was left alone; update this one`);
    if (migrationNames.some((name) => !done.has(name))) return "earlier";
    checkColumns(db, path);
    return "current";
  } finally {
    drop();
  }
}

const emptied = (path: string) =>
  new StoreError(
    "emptied",
    `${path} is empty: the store has been emptied, or something else made the file. Put a backup in its place, or delete the file to start afresh`,
  );

/** First bytes of a file; none of them where it is empty, undefined where there is no file. */
function headOf(path: string): Buffer | undefined {
  let file: number;
  try {
    file = openSync(path, "r");
  } catch (error) {
    if (codeOf(error) === "ENOENT") return undefined;
    throw error;
  }
  try {
    const head = Buffer.alloc(100);
    const length = readSync(file, head, 0, 100, 0);
    return length > 0 && length < 100 ? Buffer.concat([head.subarray(0, length), Buffer.alloc(100 - length)]) : head.subarray(0, length);
  } catch (error) {
    if (codeOf(error) === "EISDIR") throw foreign(path, "a folder");
    throw error;
  } finally {
    closeSync(file);
  }
}

function checkColumns(db: Database.Database, path: string): void {
  for (const [table, columns] of Object.entries(columnsKnown)) {
    const there = db.prepare("select name from pragma_table_info(?)").pluck().all(table) as string[];
    const gone = columns.find((c) => !there.includes(c));
    if (gone !== undefined)
      throw new StoreError(
        "unreadable",
        `the store ${path} is not laid out as Fettle expects (${table} has no ${gone}): it was left alone; put a backup in its place`,
      );
  }
}
