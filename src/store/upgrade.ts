import type { Home } from "./home";

/**
 * Brings a shop of an earlier Fettle up to date. A store in a file is brought up to date whenever it is opened.
 *
 * @param home the store
 * @returns names of the steps that were done; none where it was up to date
 * @throws {StoreError} where it can't be reached, or is a newer Fettle's
 */
export async function upgradeHome(home: Home): Promise<readonly string[]> {
  if (home.kind === "file") return [];
  const { upgradeShop } = await import("./postgres");
  return upgradeShop(home.url);
}
