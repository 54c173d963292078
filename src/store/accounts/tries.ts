import { type Kysely, sql, type Transaction } from "kysely";
import type { Tables } from "../tables";
import { digestOf } from "./secrets";

/** Within so long tries are counted together. */
const windowMs = 15 * 60_000;
/**
 * How many tries one account, one address of the network and one owner's link have in that time. Source: NIST SP 800-63B asks for at most 100 failures in a
 * row, from memory; these are common practice, no source.
 */
export const mostTries = { account: 10, address: 30, link: 60 } as const;
export type Counted = keyof typeof mostTries;

const later = (iso: string, ms: number): string => new Date(Date.parse(iso) + ms).toISOString();
/** What tries are counted by: nobody reads a name out of it, which may be a password that was typed in the wrong field. */
const keyOf = (counted: Counted, of: string): string => `${counted} ${digestOf(of)}`;

/**
 * Counts one more try before it is made, so that many at once are counted as well, in the one database of all servers.
 *
 * @param tx a transaction
 * @param now ISO 8601
 * @returns minutes to wait where there were too many; undefined where it may be made
 */
export async function counted(tx: Transaction<Tables>, now: string, what: Counted, of: string): Promise<number | undefined> {
  const [since, about] = [later(now, -windowMs), keyOf(what, of)];
  const minutesFrom = (first: string): number => Math.max(1, Math.ceil((Date.parse(first) + windowMs - Date.parse(now)) / 60_000));
  // who is held off already is told so at the price of a look: a flood of tries writes nothing
  const had = await tx.selectFrom("sign_in_try").select(["since", "tries"]).where("about", "=", about).executeTakeFirst();
  if (had && had.tries > mostTries[what] && had.since >= since && had.since <= later(now, windowMs)) return minutesFrom(had.since);
  // a clock that was put back must not hold anybody off for longer
  const over = sql<boolean>`(sign_in_try.since < ${since} or sign_in_try.since > ${later(now, windowMs)})`;
  const row = await tx
    .insertInto("sign_in_try")
    .values({ about, since: now, tries: 1 })
    .onConflict((c) =>
      c.column("about").doUpdateSet({
        since: sql<string>`case when ${over} then ${now} else sign_in_try.since end`,
        tries: sql<number>`case when ${over} then 1 else sign_in_try.tries + 1 end`,
      }),
    )
    .returning(["since", "tries"])
    .executeTakeFirstOrThrow();
  if (row.tries <= mostTries[what]) return undefined;
  return minutesFrom(row.since);
}
/** Forgets what was counted of somebody who is in. */
export async function forgotten(db: Kysely<Tables>, what: Counted, of: string): Promise<void> {
  await db.updateTable("sign_in_try").set({ tries: 0 }).where("about", "=", keyOf(what, of)).execute();
}
/** Takes one try back: it was the right one. */
export async function takenBack(db: Kysely<Tables>, what: Counted, of: string): Promise<void> {
  await db
    .updateTable("sign_in_try")
    .set((eb) => ({ tries: eb("tries", "-", 1) }))
    .where("about", "=", keyOf(what, of))
    .execute();
}
