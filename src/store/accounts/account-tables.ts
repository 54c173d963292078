import { type Kysely, type Migration, type RawBuilder, sql } from "kysely";

/** Tables of who may come in to a shop, by which link an owner reads a report, and what was done. Secrets are kept as their digests alone. */
export interface AccountTables {
  readonly account: {
    id: string;
    /** as entries show it */
    name: string;
    /** as it is looked up: no two accounts differ by capitals alone */
    known_as: string;
    role: string;
    /** hashed; null until the person has set one */
    password: string | null;
    /** since when nobody comes in by it */
    shut: string | null;
    made: string;
  };
  /** `ended` where somebody ended it before its time */
  readonly session: { hash: string; account_id: string; made: string; seen: string; ended: string | null };
  /** codes by which a password is set; of no account yet where it is the first keeper's */
  readonly set_code: { hash: string; account_id: string | null; until: string };
  readonly owner_link: { id: string; hash: string; job_id: string; who: string; made: string; until: string; withdrawn: string | null };
  readonly sign_in_try: { about: string; since: string; tries: number };
  readonly audit: { seq: number; at: string; who: string; what: string; about: string; before: string; hash: string };
  /** one row: number and hash of the last row of the trail */
  readonly audit_head: { id: number; seq: number; hash: string };
}
/** Their columns, checked before a store is used. */
export const accountColumns: { readonly [T in keyof AccountTables]: readonly (keyof AccountTables[T])[] } = {
  account: ["id", "name", "known_as", "role", "password", "shut", "made"],
  session: ["hash", "account_id", "made", "seen", "ended"],
  set_code: ["hash", "account_id", "until"],
  owner_link: ["id", "hash", "job_id", "who", "made", "until", "withdrawn"],
  sign_in_try: ["about", "since", "tries"],
  audit: ["seq", "at", "who", "what", "about", "before", "hash"],
  audit_head: ["id", "seq", "hash"],
};

type Text = "text" | RawBuilder<unknown>;
async function makeAccounts(db: Kysely<unknown>, text: Text): Promise<void> {
  await db.schema
    .createTable("account")
    .addColumn("id", text, (c) => c.primaryKey())
    .addColumn("name", text, (c) => c.notNull())
    .addColumn("known_as", text, (c) => c.notNull().unique())
    .addColumn("role", text, (c) => c.notNull())
    .addColumn("password", text)
    .addColumn("shut", text)
    .addColumn("made", text, (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("session")
    .addColumn("hash", text, (c) => c.primaryKey())
    .addColumn("account_id", text, (c) => c.notNull().references("account.id").onDelete("cascade"))
    .addColumn("made", text, (c) => c.notNull())
    .addColumn("seen", text, (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("set_code")
    .addColumn("hash", text, (c) => c.primaryKey())
    .addColumn("account_id", text, (c) => c.references("account.id").onDelete("cascade"))
    .addColumn("until", text, (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("owner_link")
    .addColumn("id", text, (c) => c.primaryKey())
    .addColumn("hash", text, (c) => c.notNull().unique())
    .addColumn("job_id", text, (c) => c.notNull().references("job.id").onDelete("cascade"))
    .addColumn("who", text, (c) => c.notNull())
    .addColumn("made", text, (c) => c.notNull())
    .addColumn("until", text, (c) => c.notNull())
    .addColumn("withdrawn", text)
    .execute();
  await db.schema
    .createTable("sign_in_try")
    .addColumn("about", text, (c) => c.primaryKey())
    .addColumn("since", text, (c) => c.notNull())
    .addColumn("tries", "integer", (c) => c.notNull())
    .execute();
}
async function makeTrail(db: Kysely<unknown>, text: Text): Promise<void> {
  await db.schema
    .createTable("audit")
    .addColumn("seq", "integer", (c) => c.primaryKey())
    .addColumn("at", text, (c) => c.notNull())
    .addColumn("who", text, (c) => c.notNull())
    .addColumn("what", text, (c) => c.notNull())
    .addColumn("about", text, (c) => c.notNull())
    .addColumn("before", text, (c) => c.notNull())
    .addColumn("hash", text, (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("audit_head")
    .addColumn("id", "integer", (c) => c.primaryKey())
    .addColumn("seq", "integer", (c) => c.notNull())
    .addColumn("hash", text, (c) => c.notNull())
    .execute();
  await sql`insert into audit_head (id, seq, hash) values (1, 0, '')`.execute(db);
}
const refusal = "the audit trail only grows";
/** The database itself refuses to change or remove a row of the trail, whoever asks through the application. */
const guards = {
  sqlite: [
    `create trigger audit_changed before update on audit begin select raise(abort, '${refusal}'); end`,
    `create trigger audit_removed before delete on audit begin select raise(abort, '${refusal}'); end`,
    `create trigger audit_replaced before insert on audit when exists (select 1 from audit where seq = new.seq) begin select raise(abort, '${refusal}'); end`,
  ],
  postgres: [
    `create function audit_only_grows() returns trigger language plpgsql as $$ begin raise exception '${refusal}'; end $$`,
    "create trigger audit_changed before update or delete on audit for each row execute function audit_only_grows()",
    "create trigger audit_emptied before truncate on audit for each statement execute function audit_only_grows()",
  ],
};
/** The step of the schema's history that makes them. */
export const accountsMigration = (dialect: keyof typeof guards, text: Text): Migration => ({
  up: async (db: Kysely<unknown>) => {
    await makeAccounts(db, text);
    await makeTrail(db, text);
    for (const guard of guards[dialect]) await sql.raw(guard).execute(db);
  },
});
