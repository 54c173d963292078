import { type Kysely, sql } from "kysely";
import { InputError } from "../units/issue";
import { postgresExplainer } from "./explain-postgres";
import { identifyShop, makeTables, shopAt } from "./postgres";
import { couldAlter, giveRights } from "./rights";
import { earlierShop } from "./store-error";
import type { Tables } from "./tables";
import { whereIs } from "./where-is";

/** How a shop's database was set up. */
export interface SetUp {
  /** whether the tables were made now; they were there otherwise, and up to date */
  readonly made: boolean;
  /** that the server's account could alter the tables all the same, where it could */
  readonly warning: string | undefined;
}

/** Refuses an account that is not there, or that would own what it is not to change. */
async function checkAccount(db: Kysely<Tables>, account: string): Promise<void> {
  const { rows } = await sql<{ own: boolean }>`select rolname = current_user as own from pg_roles where rolname = ${account}`.execute(db);
  const refused = (code: string, expected: string) => new InputError([{ path: "server", code, read: account, expected }]);
  if (rows.length === 0) throw refused("no-account", "an account of the database, which createuser makes");
  if (rows[0].own)
    throw refused("same-account", "another account than the one that sets up, which owns the tables: the server is not to own them");
}

/** That an account could alter the tables, with why; nothing where it could not. */
const sayCouldAlter = (why: readonly string[]): string | undefined =>
  why.length === 0
    ? undefined
    : `The server's account of the database could alter its tables (${why.join("; ")}): whoever takes over the server could change or remove entries and the trail. fettle set-up-store, by another account that owns the tables, sets that right.`;

/**
 * Makes a shop's tables where there are none, owned by the account that asks, and lets a server's account read them and add to them.
 *
 * @param url the shop's, with the account that is to own the tables
 * @param account the server's
 * @throws {StoreError} where it can't be reached or made, or is another version's; {InputError} where that account can't be the server's
 */
export async function setUpShop(url: string, account: string): Promise<SetUp> {
  const where = whereIs(url);
  const { db, close } = shopAt(url);
  try {
    await checkAccount(db, account);
    const found = await identifyShop(db, where);
    if (found.is === "earlier") throw earlierShop(where);
    if (found.is === "none") await makeTables(db, where);
    await giveRights(db, account);
    return { made: found.is === "none", warning: sayCouldAlter(await couldAlter(db, account)) };
  } catch (error) {
    throw postgresExplainer(where)(error);
  } finally {
    await close();
  }
}

/** What is to be told of the account by which a server comes in to a shop's database: nothing where it could not alter the tables. */
export async function warningAt(url: string): Promise<string | undefined> {
  const { db, close } = shopAt(url);
  try {
    return sayCouldAlter(await couldAlter(db));
  } catch (error) {
    throw postgresExplainer(whereIs(url))(error);
  } finally {
    await close();
  }
}
