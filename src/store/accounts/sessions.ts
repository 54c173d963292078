import { createQueryId, type Kysely } from "kysely";
import { onceFor } from "../../numerics/once";
import type { Tables } from "../tables";
import type { Transactions } from "../transactions";
import { type Account, type AccountRole, knownAs, later } from "./accounts";
import { tell } from "./audit";
import { endSession, endSessions } from "./end-sessions";
import { checkPassword, type Passwords } from "./passwords";
import { digestOf, newSecret } from "./secrets";
import { type Counted, counted, forgotten, takenBack } from "./tries";

/** How long a session stands with nobody at work in it, and at all. Source: NIST SP 800-63B, 30 days at most for one factor, from memory; the shorter is common practice, no source. */
export const sessionLives = { idleMs: 12 * 3600_000, wholeMs: 30 * 24 * 3600_000 } as const;
/** When a session was last used is written down no oftener than this. */
const seenEveryMs = 60_000;

/** What comes of trying to sign in: a session with its secret, or not, in the same words whatever was wrong; or that it is to be tried later. */
export type SignedIn =
  | { readonly is: "in"; readonly token: string; readonly account: Account }
  | { readonly is: "no" }
  | { readonly is: "later"; readonly minutes: number };
export interface Sessions {
  /** @param before the token that the browser came with: it ends, so that nobody goes on by one that he has planted */
  readonly signIn: (said: {
    readonly name: string;
    readonly password: string;
    readonly from: string;
    readonly before?: string | undefined;
  }) => Promise<SignedIn>;
  /** whose a token is, while its session stands; undefined of any other. `work` is false where nobody does anything: it doesn't put off the session's end */
  readonly of: (token: string, work?: boolean) => Promise<Account | undefined>;
  readonly signOut: (token: string) => Promise<void>;
  /** ends every session of an account */
  readonly signOutEverywhere: (account: Account) => Promise<void>;
  /** sets another password, every session ends; false where the one of before is wrong */
  readonly changePassword: (account: Account, before: string, password: string) => Promise<boolean>;
  /** counts a try of something that is guessed at; minutes to wait where there were too many */
  readonly count: (what: Counted, of: string) => Promise<number | undefined>;
}

const stands = (now: string, made: string, seen: string): boolean =>
  now < later(made, sessionLives.wholeMs) && now < later(seen, sessionLives.idleMs);
const roleOf = (role: string): AccountRole => (role === "keeper" ? "keeper" : "bench");
interface InSession {
  readonly made: string;
  readonly seen: string;
  readonly id: string;
  readonly name: string;
  readonly role: string;
}
/** The question whose session a hash is, in words once: it is asked with each request. */
const sessionAsked = onceFor((db: Kysely<Tables>) =>
  db
    .selectFrom("session")
    .innerJoin("account", "account.id", "session.account_id")
    .select(["session.made", "session.seen", "account.id", "account.name", "account.role"])
    .where("session.hash", "=", "")
    .where("session.ended", "is", null)
    .where("account.shut", "is", null)
    .compile(),
);
/** The account that a token's session belongs to. */
async function sessionOf(db: Kysely<Tables>, token: string, now: string, work: boolean): Promise<Account | undefined> {
  const hash = digestOf(token);
  const asked = sessionAsked(db);
  const {
    rows: [found],
  } = await db.executeQuery<InSession>({ ...asked, parameters: [hash], queryId: createQueryId() });
  if (!found || !stands(now, found.made, found.seen)) return undefined;
  if (work && now > later(found.seen, seenEveryMs)) await db.updateTable("session").set({ seen: now }).where("hash", "=", hash).execute();
  return { id: found.id, name: found.name, role: roleOf(found.role) };
}

/**
 * The sessions of a store's accounts.
 *
 * @param on how it is asked
 * @param hashed how passwords are
 */
export function sessionsIn({ db, now, guard, write, writeOnce, transact }: Transactions, hashed: Passwords): Sessions {
  const count: Sessions["count"] = (what, of) => writeOnce(() => transact((tx) => counted(tx, now(), what, of)));
  const refused = (about: string): Promise<void> =>
    writeOnce(() => transact((tx) => tell(tx, now(), { who: "a stranger", what: "sign-in refused", about })));
  const end = (id: string, what: string, name: string): Promise<void> =>
    writeOnce(() =>
      transact(async (tx) => {
        await tell(tx, now(), { who: name, what, about: name });
        await endSessions(tx, id, now());
      }),
    );
  const open = (account: Tables["account"], before: string | undefined): Promise<string> =>
    writeOnce(() =>
      transact(async (tx) => {
        const [token, at] = [newSecret(), now()];
        await tell(tx, at, { who: account.name, what: "signed in", about: account.name });
        if (before !== undefined) await endSession(tx, before, at);
        await tx
          .insertInto("session")
          .values({ hash: digestOf(token), account_id: account.id, made: at, seen: at, ended: null })
          .execute();
        return token;
      }),
    );
  return {
    count,
    signIn: async ({ name, password, from, before }) => {
      const [byAddress, byName] = [await count("address", from), await count("account", knownAs(name))];
      const minutes = Math.max(byAddress ?? 0, byName ?? 0);
      if (minutes > 0) return { is: "later", minutes };
      const account = await guard(() => db.selectFrom("account").selectAll().where("known_as", "=", knownAs(name)).executeTakeFirst());
      // as long as for a password that is wrong, whether there is such an account or not
      const fits = await hashed.fits(password, account?.password ?? null);
      if (!account || !fits || account.shut !== null) {
        await refused(account?.name ?? "no account");
        return { is: "no" };
      }
      await guard(() => Promise.all([forgotten(db, "account", knownAs(name)), takenBack(db, "address", from)]));
      const token = await open(account, before);
      return { is: "in", token, account: { id: account.id, name: account.name, role: roleOf(account.role) } };
    },
    of: (token, work = true) => guard(() => sessionOf(db, token, now(), work)),
    signOut: (token) => write(() => endSession(db, token, now())),
    signOutEverywhere: ({ id, name }) => end(id, "signed out everywhere", name),
    changePassword: async ({ id, name }, before, password) => {
      const row = await guard(() => db.selectFrom("account").select("password").where("id", "=", id).executeTakeFirst());
      if (!row || !(await hashed.fits(before, row.password))) return false;
      checkPassword(password, name);
      const stored = await hashed.hash(password);
      await writeOnce(async () => void (await db.updateTable("account").set({ password: stored }).where("id", "=", id).execute()));
      await end(id, "password changed", name);
      return true;
    },
  };
}
