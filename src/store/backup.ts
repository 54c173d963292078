import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import Database from "better-sqlite3";
import { explainer } from "./explain";
import type { Home } from "./home";
import { identify, openLooking } from "./identify";
import { StoreError } from "./store";

/** Copies the store in a file: the engine's own copying, then its own check of the copy. */ async function backupFile(
  path: string,
  to: string,
  damagedToo: boolean,
): Promise<number> {
  try {
    if (identify(path) === "none") throw new StoreError("no-job", `there is no store at ${path} yet`);
    const { raw, drop } = openLooking(path);
    try {
      await raw.backup(to);
    } finally {
      drop();
    }
    const copy = new Database(to, { readonly: true });
    try {
      const said = copy.pragma("integrity_check", { simple: true });
      if (said !== "ok" && !damagedToo)
        throw new StoreError("unreadable", `the store ${path} is damaged (${said}): fettle check-store tells more`);
      return copy.prepare("select count(*) from job").pluck().get() as number;
    } finally {
      copy.close();
    }
  } catch (error) {
    throw explainer(path)(error);
  }
}

/**
 * Copies a whole store, as it stands at one moment, however many are writing to it; the copy is checked before it counts. It is a store in a file, whatever
 * home it was made of, and can be used as one.
 *
 * @param home the store
 * @param to file of the copy, which this person's program has just made
 * @param damagedToo whether a damaged store is copied as it is
 * @returns number of jobs in the copy
 * @throws {StoreError} where there is no store, or where the copy is not whole
 */
export async function backupStore(home: Home, to: string, damagedToo = false): Promise<number> {
  if (home.kind === "file") return backupFile(home.path, to, damagedToo);
  const { backupShop } = await import("./shop-backup");
  return backupShop(home.url, to);
}

/** The checksum of a file. Source: FIPS 180-4 (SHA-256), by Node.js. */
export async function fileDigest(path: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const part of createReadStream(path)) hash.update(part as Buffer);
  return hash.digest("hex");
}
