import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Checked, checkStore } from "./check";
import type { Home } from "./home";

/**
 * Looks a home through, as `checkStore` does: a shop's database by a copy of one moment, so that nobody who works in it is held up.
 *
 * @param home the store
 * @returns what is wrong, and how much was looked at
 * @throws {StoreError} where it can't be looked at
 */
export async function checkHome(home: Home): Promise<Checked> {
  if (home.kind === "file") return checkStore(home.path);
  const folder = mkdtempSync(join(tmpdir(), "fettle-"));
  try {
    const { backupShop } = await import("./shop-backup");
    const copy = join(folder, "jobs.db");
    await backupShop(home.url, copy);
    return checkStore(copy);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
