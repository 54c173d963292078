import { createHash } from "node:crypto";
import type { Kysely, Transaction } from "kysely";
import type { Tables } from "../tables";

/** One thing that was done, as it is told to the trail. */
export interface Told {
  readonly who: string;
  readonly what: string;
  readonly about: string;
}
export type AuditRow = Tables["audit"];
/** The last row of the trail by its number and hash: what a keeper writes down elsewhere. */
export interface AuditHead {
  readonly seq: number;
  readonly hash: string;
}
/** How the trail was found. */
export interface Audited {
  readonly head: AuditHead;
  readonly rowsCount: number;
  /** what is wrong with it, in words; nothing where it is whole */
  readonly wrong: readonly string[];
}

/** A row's hash over all of it and the hash of the row before, so that none can be changed, put in or taken out alone. Source: FIPS 180-4 (SHA-256), by Node.js */
export const hashOfRow = ({ seq, at, who, what, about, before }: Omit<AuditRow, "hash">): string =>
  createHash("sha256")
    .update(JSON.stringify([before, seq, at, who, what, about]))
    .digest("hex");

/** Adds to the trail, first of all in a transaction: its last row is taken, so that whoever else adds to it waits. */
export async function tell(tx: Transaction<Tables>, at: string, told: Told): Promise<void> {
  const head = await tx
    .updateTable("audit_head")
    .set((eb) => ({ seq: eb("seq", "+", 1) }))
    .where("id", "=", 1)
    .returning(["seq", "hash"])
    .executeTakeFirstOrThrow();
  const row = { seq: head.seq, at, who: told.who, what: told.what, about: told.about, before: head.hash };
  const hash = hashOfRow(row);
  await tx
    .insertInto("audit")
    .values({ ...row, hash })
    .execute();
  await tx.updateTable("audit_head").set({ hash }).where("id", "=", 1).execute();
}

/** The latest rows of the trail, the latest last. */
export async function rowsOf(db: Kysely<Tables>, most: number): Promise<readonly AuditRow[]> {
  return (await db.selectFrom("audit").selectAll().orderBy("seq", "desc").limit(most).execute()).reverse();
}
const rowsAtOnce = 1000;
const mostTold = 20;

/**
 * Looks the whole trail through.
 *
 * @param db the database
 * @param noted a row as it was written down elsewhere: that it is still there, and the same
 */
export async function verified(db: Kysely<Tables>, noted?: AuditHead): Promise<Audited> {
  const head = await db.selectFrom("audit_head").select(["seq", "hash"]).executeTakeFirst();
  const wrong: string[] = [];
  let [last, count]: [AuditHead, number] = [{ seq: 0, hash: "" }, 0];
  let seen = noted === undefined || noted.seq === 0;
  for (;;) {
    const rows = await db.selectFrom("audit").selectAll().where("seq", ">", last.seq).orderBy("seq").limit(rowsAtOnce).execute();
    for (const row of rows) {
      if (row.seq !== last.seq + 1) wrong.push(gone(last.seq + 1, row.seq - 1));
      else if (row.before !== last.hash) wrong.push(`row ${row.seq} does not follow from the row before it`);
      if (row.hash !== hashOfRow(row)) wrong.push(`row ${row.seq} was changed`);
      if (noted?.seq === row.seq) {
        seen = true;
        if (!row.hash.startsWith(noted.hash)) wrong.push(`row ${row.seq} is not the one that was written down`);
      }
      last = row;
      count++;
    }
    if (rows.length < rowsAtOnce || wrong.length > mostTold) break;
  }
  if (head === undefined || last.seq < head.seq) wrong.push(gone(last.seq + 1, head?.seq ?? last.seq + 1));
  else if (head.hash !== last.hash) wrong.push(`row ${last.seq} is not the last one that was written`);
  if (!seen && noted !== undefined) wrong.push(`row ${noted.seq}, which was written down, is not there`);
  return { head: { seq: last.seq, hash: last.hash }, rowsCount: count, wrong: wrong.slice(0, mostTold) };
}
const gone = (first: number, last: number): string =>
  first >= last ? `row ${first} was taken out` : `rows ${first} to ${last} were taken out`;
