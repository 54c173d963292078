import { type Kysely, sql, type Transaction } from "kysely";
import { keptStep } from "../kept/kept-step";
import type { Tables } from "../tables";

const rowsAtOnce = 200;
/** Whether a store is of since keepers say how long things are kept. */
const hasKept = async (db: Kysely<Tables>): Promise<boolean> =>
  (await sql`select 1 from kysely_migration where name = ${keptStep}`.execute(db)).rows.length > 0;

/**
 * Carries accounts, owners' links, the trail and how long things are kept of one store into another that has neither accounts nor a trail of its own; sessions and codes end with the
 * store that they belong to. Nothing where the one that is read is of before there were any.
 *
 * @param from what is read
 * @param to one transaction of the other, its jobs carried already
 */
export async function carryPeople(from: Kysely<Tables>, to: Transaction<Tables>): Promise<void> {
  if (!(await from.introspection.getTables()).some((t) => t.name === "audit_head")) return;
  const there = await to.selectFrom("audit_head").select("seq").executeTakeFirst();
  const theirs = await to.selectFrom("account").select("id").limit(1).execute();
  if ((there?.seq ?? 0) > 0 || theirs.length > 0) return;
  for (const a of await from.selectFrom("account").selectAll().execute()) await to.insertInto("account").values(a).execute();
  const jobs = new Set((await to.selectFrom("job").select("id").execute()).map((j) => j.id));
  for (const l of await from.selectFrom("owner_link").selectAll().execute())
    if (jobs.has(l.job_id)) await to.insertInto("owner_link").values(l).execute();
  for (let last = 0; ; ) {
    const rows = await from.selectFrom("audit").selectAll().where("seq", ">", last).orderBy("seq").limit(rowsAtOnce).execute();
    if (rows.length === 0) break;
    await to.insertInto("audit").values(rows).execute();
    last = rows[rows.length - 1].seq;
  }
  if (await hasKept(from))
    for (const k of await from.selectFrom("kept_for").selectAll().execute()) await to.insertInto("kept_for").values(k).execute();
  const head = await from.selectFrom("audit_head").select(["seq", "hash"]).executeTakeFirst();
  if (head) await to.updateTable("audit_head").set(head).where("id", "=", 1).execute();
}
