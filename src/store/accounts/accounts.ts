import { randomUUID } from "node:crypto";
import type { Kysely, Transaction } from "kysely";
import { InputError } from "../../units/issue";
import { oneOf } from "../../units/nearest";
import type { Tables } from "../tables";
import type { Transactions } from "../transactions";
import { type Told, tell } from "./audit";
import { endSessions } from "./end-sessions";
import { checkPassword, type Passwords } from "./passwords";
import { asTyped, digestOf, newCode } from "./secrets";

/** What an account may be. */
export const accountRoles = ["bench", "keeper"] as const;
export type AccountRole = (typeof accountRoles)[number];
export interface Account {
  readonly id: string;
  readonly name: string;
  readonly role: AccountRole;
}
export interface Listed extends Account {
  readonly made: string;
  /** a password has been set */
  readonly set: boolean;
  readonly shut: boolean;
  /** when it was last at work in a session that still stands */
  readonly seen?: string;
}
/** Who may come in. Whatever changes is told to the trail in the same transaction, by whom. */
export interface Accounts {
  readonly list: () => Promise<readonly Listed[]>;
  /** makes an account; returns the code by which its person sets a password */
  readonly make: (name: string, role: AccountRole, who: string) => Promise<string>;
  readonly change: (name: string, to: { readonly role?: AccountRole; readonly shut?: boolean }, who: string) => Promise<void>;
  /** a new code: the password of before and every session end */
  readonly codeFor: (name: string, who: string) => Promise<string>;
  /** a code for the first keeper, in place of any earlier one; none once there is a keeper who can come in */
  readonly firstCode: () => Promise<string | undefined>;
  /** sets a password by a code; `name` is the first keeper's, who has no account yet */
  readonly setPassword: (code: string, password: string, name: string) => Promise<Account>;
}

const codeLivesMs = 24 * 3600_000;
export const later = (iso: string, ms: number): string => new Date(Date.parse(iso) + ms).toISOString();
/** A name as it is looked up. */
export const knownAs = (name: string): string => name.normalize("NFKC").trim().replace(/\s+/g, " ").toLowerCase();

function checkAccountName(name: string): string {
  const said = name.normalize("NFKC").trim().replace(/\s+/g, " ");
  if (/^[\p{L}\p{N}][\p{L}\p{N} .'-]{0,39}$/u.test(said)) return said;
  const expected = "a name that begins with a letter or digit, then letters, digits, spaces and . ' -, at most 40";
  throw new InputError([{ path: "account", code: "bad-name", read: name, expected }]);
}
const asAccount = (a: Pick<Tables["account"], "id" | "name" | "role">): Account => ({
  id: a.id,
  name: a.name,
  role: a.role === "keeper" ? "keeper" : "bench",
});

async function named(db: Kysely<Tables>, name: string): Promise<Tables["account"]> {
  const found = await db.selectFrom("account").selectAll().where("known_as", "=", knownAs(name)).executeTakeFirst();
  if (found) return found;
  const all = (await db.selectFrom("account").select("name").orderBy("name").execute()).map((a) => a.name);
  const expected = all.length > 0 ? oneOf(name, all, "accounts") : "an account: there is none yet";
  throw new InputError([{ path: "account", code: "no-account", read: name, expected }]);
}
/** Keepers who can come in. */
const keepers = async (db: Kysely<Tables>): Promise<readonly string[]> =>
  (
    await db
      .selectFrom("account")
      .select("id")
      .where("role", "=", "keeper")
      .where("shut", "is", null)
      .where("password", "is not", null)
      .execute()
  ).map((a) => a.id);
async function keepOne(tx: Transaction<Tables>, id: string): Promise<void> {
  const all = await keepers(tx);
  if (all.length !== 1 || all[0] !== id) return;
  const expected = "another keeper first: this is the only one who can come in";
  throw new InputError([{ path: "account", code: "last-keeper", read: "", expected }]);
}
/** A code for an account, or for the first keeper, in place of any earlier one. */
async function putCode(tx: Transaction<Tables>, accountId: string | null, now: string): Promise<string> {
  const code = newCode();
  await tx
    .deleteFrom("set_code")
    .where("account_id", accountId === null ? "is" : "=", accountId)
    .execute();
  await tx
    .insertInto("set_code")
    .values({ hash: digestOf(asTyped(code)), account_id: accountId, until: later(now, codeLivesMs) })
    .execute();
  return code;
}
async function make(tx: Transaction<Tables>, name: string, role: AccountRole, at: string): Promise<Tables["account"]> {
  const taken = await tx.selectFrom("account").select("name").where("known_as", "=", knownAs(name)).executeTakeFirst();
  if (taken)
    throw new InputError([
      { path: "account", code: "exists", read: name, expected: "another name: there is already an account of that name" },
    ]);
  const row = { id: randomUUID(), name, known_as: knownAs(name), role, password: null, shut: null, made: at };
  await tx.insertInto("account").values(row).execute();
  return row;
}
const noCode = (): InputError =>
  new InputError([
    { path: "code", code: "no-code", read: "", expected: "a code that stands: it is good once, for 24 hours; have a new one made" },
  ]);

/** Whose a code is; it is gone with that. */
async function redeemed(tx: Transaction<Tables>, code: string, name: string, now: string): Promise<Tables["account"]> {
  const found = await tx
    .deleteFrom("set_code")
    .where("hash", "=", digestOf(asTyped(code)))
    .returning(["account_id", "until"])
    .executeTakeFirst();
  if (!found || found.until <= now) throw noCode();
  if (found.account_id !== null) return tx.selectFrom("account").selectAll().where("id", "=", found.account_id).executeTakeFirstOrThrow();
  if ((await keepers(tx)).length > 0) throw noCode();
  return make(tx, checkAccountName(name), "keeper", now);
}
async function listed(db: Kysely<Tables>): Promise<readonly Listed[]> {
  const seen = await db
    .selectFrom("session")
    .select((eb) => ["account_id", eb.fn.max("seen").as("seen")])
    .where("ended", "is", null)
    .groupBy("account_id")
    .execute();
  const bySeen = new Map(seen.map((s) => [s.account_id, s.seen]));
  const all = await db.selectFrom("account").selectAll().orderBy("known_as").execute();
  return all.map((a) => {
    const at = bySeen.get(a.id);
    return { ...asAccount(a), made: a.made, set: a.password !== null, shut: a.shut !== null, ...(at ? { seen: at } : {}) };
  });
}

/** An act on an account, told to the trail first of all, in the same transaction. */
type Act = <T>(told: Told, work: (tx: Transaction<Tables>, at: string) => Promise<T>) => Promise<T>;

async function setPassword(
  { db, guard }: Transactions,
  hashed: Passwords,
  act: Act,
  { code, password, name }: { readonly code: string; readonly password: string; readonly name: string },
): Promise<Account> {
  const hash = digestOf(asTyped(code));
  const found = await guard(() =>
    db
      .selectFrom("set_code")
      .leftJoin("account", "account.id", "set_code.account_id")
      .select(["set_code.account_id", "account.name"])
      .where("set_code.hash", "=", hash)
      .executeTakeFirst(),
  );
  if (!found) throw noCode();
  const first = found.account_id === null;
  const about = found.name ?? checkAccountName(name);
  checkPassword(password, about);
  const stored = await hashed.hash(password);
  return act({ who: about, what: first ? "first keeper: password set" : "password set", about }, async (tx, at) => {
    const account = await redeemed(tx, code, name, at);
    await tx.updateTable("account").set({ password: stored }).where("id", "=", account.id).execute();
    await endSessions(tx, account.id, at);
    return asAccount(account);
  });
}

/**
 * The accounts of a store.
 *
 * @param on how it is asked
 * @param hashed how passwords are
 */
export function accountsIn(on: Transactions, hashed: Passwords): Accounts {
  const { db, now, guard, writeOnce, transact } = on;
  const act: Act = (told, work) =>
    writeOnce(() =>
      transact(async (tx) => {
        const at = now();
        await tell(tx, at, told);
        return work(tx, at);
      }),
    );
  return {
    list: () => guard(() => listed(db)),
    make: async (said, role, who) => {
      const name = checkAccountName(said);
      return act({ who, what: `account made: ${role}`, about: name }, async (tx, at) =>
        putCode(tx, (await make(tx, name, role, at)).id, at),
      );
    },
    change: async (said, { role, shut }, who) => {
      const { id, name } = await guard(() => named(db, said));
      const what = [role && `account is now: ${role}`, shut !== undefined && (shut ? "account shut" : "account opened again")];
      await act({ who, what: what.filter(Boolean).join(", "), about: name }, async (tx, at) => {
        if (shut || role === "bench") await keepOne(tx, id);
        const to = { ...(role ? { role } : {}), ...(shut === undefined ? {} : { shut: shut ? at : null }) };
        await tx.updateTable("account").set(to).where("id", "=", id).execute();
        // a role that a session was opened with goes with it
        await endSessions(tx, id, at);
        if (shut) await tx.deleteFrom("set_code").where("account_id", "=", id).execute();
      });
    },
    codeFor: async (said, who) => {
      const { id, name } = await guard(() => named(db, said));
      return act({ who, what: "code made to set a password", about: name }, async (tx, at) => {
        await keepOne(tx, id);
        await tx.updateTable("account").set({ password: null }).where("id", "=", id).execute();
        await endSessions(tx, id, at);
        return putCode(tx, id, at);
      });
    },
    firstCode: () => writeOnce(() => transact(async (tx) => ((await keepers(tx)).length > 0 ? undefined : putCode(tx, null, now())))),
    setPassword: (code, password, name) => setPassword(on, hashed, act, { code, password, name }),
  };
}
