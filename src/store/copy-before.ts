import { closeSync, existsSync, openSync, readdirSync, renameSync, rmSync, statSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import Database from "better-sqlite3";
import { codeOf } from "./explain";
import { openLooking } from "./identify";
import { migrationNames } from "./schema-history";
import { StoreError } from "./store-error";

/** So many copies of before stay beside a store; when another is made the oldest goes. House rule. */
const mostCopies = 2;
/** A copy that was begun so long ago was cut off. House rule. */
const cutOffMs = 3600_000;

const stemOf = (path: string): string => `${basename(path).replace(/\.db$/, "")}-before-update-`;
/** Copies of a store as it was before it was brought up to date, the oldest first; `end` is how their names go on after the time. */
const copiesOf = (path: string, end: RegExp): string[] =>
  readdirSync(dirname(path))
    .flatMap((f) => (f.startsWith(stemOf(path)) && end.test(f.slice(stemOf(path).length)) ? [f.replace(/\.db$/, "")] : []))
    .sort()
    .map((f) => join(dirname(path), f.endsWith(".part") ? f : `${f}.db`));
const copied = /^[\dT-]+\.db$/;
const begun = /^[\dT-]+\.db-\d+\.part$/;
/** A name that says what it is and when it was made, and that no file has yet. */
function nameFor(path: string, at: string): string {
  const stem = join(dirname(path), `${stemOf(path)}${at.slice(0, 19).replaceAll(":", "-")}`);
  for (let i = 1; ; i++) {
    const name = i === 1 ? `${stem}.db` : `${stem}-${i}.db`;
    if (!existsSync(name)) return name;
  }
}
/** Whether a copy is whole, and still of an earlier Fettle: another process may have brought the store up to date meanwhile. */
function judged(copy: string): "whole" | "damaged" | "up to date" {
  const raw = new Database(copy, { readonly: true });
  try {
    if (raw.pragma("integrity_check", { simple: true }) !== "ok") return "damaged";
    const latest = migrationNames[migrationNames.length - 1];
    return raw.prepare("select 1 from kysely_migration where name = ?").get(latest) ? "up to date" : "whole";
  } finally {
    raw.close();
  }
}
/** Why a store is left as it was. */
function noCopy(path: string, error: unknown): StoreError {
  const code = codeOf(error);
  const full = /^(SQLITE_FULL|ENOSPC|EDQUOT)/.test(code);
  const megabytes = Math.ceil(statSync(path).size / 1e6);
  const why = full ? `the disk has no room for it, ${megabytes} MB: make room` : `that could not be written (${code || String(error)})`;
  return new StoreError(
    full ? "full" : "read-only",
    `${path} was written by an earlier Fettle, and is copied before it is brought up to date; ${why}. Nothing was changed: it can be read meanwhile, and nothing is recorded`,
  );
}

/**
 * Copies a store of an earlier Fettle, beside it, before it is brought up to date: by the engine's own copying, checked, and put in its place whole.
 *
 * @param path the store's file
 * @param at now, ISO 8601
 * @returns in words, where the copy is; nothing where another process has brought the store up to date meanwhile
 * @throws {StoreError} where it can't be copied: then the store is to stay as it is
 */
export async function copyBefore(path: string, at: string): Promise<string | undefined> {
  for (const part of copiesOf(path, begun)) if (Date.now() - statSync(part).mtimeMs > cutOffMs) rmSync(part, { force: true });
  const [to, part] = [nameFor(path, at), `${nameFor(path, at)}-${process.pid}.part`];
  try {
    closeSync(openSync(part, "wx", 0o600));
  } catch (error) {
    throw noCopy(path, error);
  }
  try {
    const { raw, drop } = openLooking(path);
    await raw.backup(part).finally(drop);
    const is = judged(part);
    if (is === "up to date") return undefined;
    if (is === "damaged") throw new StoreError("unreadable", `${path} is damaged, and was left as it is: fettle check-store tells more`);
    renameSync(part, to);
  } catch (error) {
    throw error instanceof StoreError ? error : noCopy(path, error);
  } finally {
    for (const end of ["", "-wal", "-shm", "-journal"]) rmSync(`${part}${end}`, { force: true });
  }
  for (const old of copiesOf(path, copied).slice(0, -mostCopies)) rmSync(old, { force: true });
  return `The store was written by an earlier Fettle and is brought up to date. As it was before, it is in ${to}: keep that until you have seen that all is there, then delete it, since what is erased later still stands in it.`;
}
