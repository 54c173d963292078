import type { Home } from "./home";
import type { SetUp } from "./set-up-shop";

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

/**
 * Makes a shop's tables and lets a server's account in to them; a store in a file has no accounts of a database.
 *
 * @param home the store, with the account that is to own its tables
 * @param account the server's
 * @returns how; nothing where the store is a file
 */
export async function setUpHome(home: Home, account: string): Promise<SetUp | undefined> {
  if (home.kind === "file") return undefined;
  const { setUpShop } = await import("./set-up-shop");
  return setUpShop(home.url, account);
}

/**
 * What a server is to say of the account by which it comes in to its store.
 *
 * @param home the store
 * @returns that it could alter the tables, in words; nothing where it could not, or where the store is a file
 */
export async function warningOf(home: Home): Promise<string | undefined> {
  if (home.kind === "file") return undefined;
  const { warningAt } = await import("./set-up-shop");
  return warningAt(home.url);
}
