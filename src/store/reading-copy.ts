import { copyFileSync, mkdtempSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";

const largestInMemoryBytes = 1024 * 1024 * 1024;

/**
 * A copy of a store to read from: in memory, or among temporary files where the store is large or has something in its log.
 *
 * @param path file
 * @param hasLog whether something stands in its log that its main file does not have
 * @returns the open copy, and how to close it and drop what it took
 */
export function copyForReading(path: string, hasLog: boolean): { readonly raw: Database.Database; readonly drop: () => void } {
  if (!hasLog && statSync(path).size < largestInMemoryBytes) {
    const bytes = readFileSync(path);
    // a copy in memory has no log: bytes 18 and 19 of the head say so. Source: the SQLite file format, section 1.3.3
    bytes[18] = 1;
    bytes[19] = 1;
    const raw = new Database(bytes);
    return { raw, drop: () => raw.close() };
  }
  const folder = mkdtempSync(join(tmpdir(), "fettle-"));
  const clear = (): void => rmSync(folder, { recursive: true, force: true });
  try {
    const copy = join(folder, "jobs.db");
    copyFileSync(path, copy);
    if (hasLog) copyFileSync(`${path}-wal`, `${copy}-wal`);
    const raw = new Database(copy, { fileMustExist: true });
    const drop = (): void => {
      raw.close();
      clear();
    };
    return { raw, drop };
  } catch (error) {
    clear();
    throw error;
  }
}
