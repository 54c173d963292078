import { existsSync, readFileSync } from "node:fs";
import { basename } from "node:path";
import Database from "better-sqlite3";
import type { Kysely } from "kysely";
import { sayIssue } from "../units/issue";
import { fileDigest } from "./backup";
import { type Carried, carryAll } from "./carry";
import { explainer } from "./explain";
import { type Home, openHome, sayHome } from "./home";
import { hasLog, identify } from "./identify";
import { copyForReading } from "./reading-copy";
import { bringUpToDate, kyselyOf } from "./sqlite";
import { StoreError } from "./store";
import type { Tables } from "./tables";

/** Name of the file that holds a backup's checksum, as `sha256sum` writes and checks it. */
export const checksumBeside = (path: string): string => `${path}.sha256`;

const refused = (path: string, code: string, read: string, expected: string): StoreError => {
  const issue = { path, code, read, expected };
  return new StoreError("unreadable", sayIssue(issue), issue);
};

/** Refuses a backup that is not as it was made: by the checksum beside it, where there is one, and by the database's own check. */
async function checkBackup(path: string): Promise<void> {
  if (identify(path) === "none") throw refused("file", "missing", basename(path), "a backup that fettle backup wrote");
  const beside = checksumBeside(path);
  if (!existsSync(beside)) return;
  const said = /^[0-9a-f]{64}/.exec(readFileSync(beside, "utf8"))?.[0];
  if (said !== (await fileDigest(path)))
    throw refused("file", "checksum", basename(path), `the file that ${basename(beside)} was made of: it has changed since, or is damaged`);
}

/** A home's database, its tables made and up to date. */
async function databaseOf(home: Home): Promise<{ readonly db: Kysely<Tables>; readonly close: () => Promise<void> }> {
  await (await openHome(home)).close();
  if (home.kind === "shop") return (await import("./postgres")).shopAt(home.url);
  const raw = new Database(home.path, { fileMustExist: true, timeout: 10_000 });
  raw.pragma("synchronous = FULL");
  raw.pragma("foreign_keys = ON");
  const db = kyselyOf(raw);
  return { db, close: () => db.destroy() };
}

/**
 * Brings every job of a backup, or of any store in a file, into a home: all of them, each compared by its checksum, or none. The backup stays as it is.
 *
 * @param home where to; a file or a shop's database
 * @param path the backup; one of an earlier version is read as this version has it
 * @returns how much came over
 * @throws {StoreError} where the backup is damaged, where the home can't be written, or where a job of the same name is there with another content
 */
export async function restoreStore(home: Home, path: string): Promise<Carried> {
  let drop = (): void => undefined;
  try {
    await checkBackup(path);
    const copy = copyForReading(path, hasLog(path));
    drop = copy.drop;
    if (copy.raw.pragma("integrity_check", { simple: true }) !== "ok")
      throw refused("file", "damaged", basename(path), "a backup whose database is whole (fettle check-store tells more)");
    const from = kyselyOf(copy.raw);
    await bringUpToDate(from, copy.raw);
    const { db, close } = await databaseOf(home);
    try {
      return await db.transaction().execute((into) => carryAll(from, into));
    } catch (error) {
      throw home.kind === "shop" ? (await import("./explain-postgres")).postgresExplainer(sayHome(home))(error) : error;
    } finally {
      await close();
    }
  } catch (error) {
    throw explainer(home.kind === "file" ? home.path : path)(error);
  } finally {
    drop();
  }
}
