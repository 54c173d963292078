import type { Kysely } from "kysely";
import type { Tables } from "../tables";
import { digestOf } from "./secrets";

/** Ends a session by its token; that it was is kept. */
export async function endSession(db: Kysely<Tables>, token: string, at: string): Promise<void> {
  await db.updateTable("session").set({ ended: at }).where("hash", "=", digestOf(token)).where("ended", "is", null).execute();
}
/** Ends every session of an account. */
export async function endSessions(db: Kysely<Tables>, accountId: string, at: string): Promise<void> {
  await db.updateTable("session").set({ ended: at }).where("account_id", "=", accountId).where("ended", "is", null).execute();
}
