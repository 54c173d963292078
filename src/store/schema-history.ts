import { type Kysely, type Migration, Migrator, sql } from "kysely";
import { entriesInFive, setInFive } from "../job/bulb";
import { cardsByField, entriesInThree, readingsApart, setInThree } from "../job/migrations";
import { accountsMigration } from "./accounts/account-tables";
import { contentStep } from "./content";
import { contentMigration } from "./content-step";
import { keptMigration, keptStep } from "./kept/kept-step";
import { madeMigration, madeStep } from "./made-step";
import { applicationId, readingIdIn, type Tables } from "./tables";

/** Where the tables stand in a PostgreSQL database, apart from whatever else it holds. */
export const shopSchema = "fettle";
export type Dialect = "sqlite" | "postgres";
/** Words of any kind: on both homes compared and put in order letter by letter, as SQLite does it, whatever the server's own language. */
const textOn = (dialect: Dialect) => (dialect === "sqlite" ? ("text" as const) : sql`text collate "C"`);
const bytesOn = (dialect: Dialect) => (dialect === "sqlite" ? ("blob" as const) : sql`bytea`);

const first = (dialect: Dialect): Migration => ({
  up: async (db: Kysely<unknown>) => {
    const text = textOn(dialect);
    await db.schema
      .createTable("job")
      .addColumn("id", text, (c) => c.primaryKey())
      .addColumn("name", text, (c) => c.notNull().unique())
      .addColumn("created", text, (c) => c.notNull())
      .addColumn("updated", text, (c) => c.notNull())
      .addColumn("revision", "integer", (c) => c.notNull())
      .addColumn("next_seq", "integer", (c) => c.notNull())
      .addColumn("set_json", text, (c) => c.notNull())
      .addColumn("extra_json", text, (c) => c.notNull())
      .execute();
    await db.schema
      .createTable("entry")
      .addColumn("job_id", text, (c) => c.notNull().references("job.id").onDelete("cascade"))
      .addColumn("seq", "integer", (c) => c.notNull())
      .addColumn("id", text, (c) => c.notNull())
      .addColumn("kind", text, (c) => c.notNull())
      .addColumn("at", text, (c) => c.notNull())
      .addColumn("who", text, (c) => c.notNull())
      .addColumn("body_json", text, (c) => c.notNull())
      .addPrimaryKeyConstraint("entry_key", ["job_id", "seq"])
      .addUniqueConstraint("entry_id", ["job_id", "id"])
      .execute();
    await db.schema
      .createTable("file")
      .addColumn("job_id", text, (c) => c.notNull().references("job.id").onDelete("cascade"))
      .addColumn("hash", text, (c) => c.notNull())
      .addColumn("name", text, (c) => c.notNull())
      .addColumn("media", text, (c) => c.notNull())
      .addColumn("bytes", bytesOn(dialect), (c) => c.notNull())
      .addPrimaryKeyConstraint("file_key", ["job_id", "hash"])
      .execute();
  },
});

/** What the index of jobs holds: all that a list shows, so that no description is read for it; a server's index takes no long words. */
const listedBy = (dialect: Dialect): string[] =>
  dialect === "sqlite" ? ["updated", "name", "title", "created", "revision", "next_seq", "id"] : ["updated", "id"];

/** Title in a set's description; none where that can't be read, which is told when the job is opened. */
const titleIn = (setJson: string): string => {
  const set = parsed(setJson) as { title?: unknown } | undefined;
  return typeof set?.title === "string" ? set.title : "";
};
/** JSON that may be damaged: undefined where it is. */
function parsed(json: string): unknown {
  try {
    return JSON.parse(json);
  } catch {
    return undefined;
  }
}

const titles = (dialect: Dialect): Migration => ({
  up: async (db: Kysely<unknown>) => {
    await db.schema
      .alterTable("job")
      .addColumn("title", textOn(dialect), (c) => c.notNull().defaultTo(""))
      .execute();
    const jobs = db as Kysely<Tables>;
    for (const j of await jobs.selectFrom("job").select(["id", "set_json"]).execute())
      await jobs
        .updateTable("job")
        .set({ title: titleIn(j.set_json) })
        .where("id", "=", j.id)
        .execute();
    await db.schema.createIndex("job_list").on("job").columns(listedBy(dialect)).execute();
  },
});

/** Entries of one job as version 2 of the format has them: cards field by field, readings told apart. */
async function rewriteEntries(db: Kysely<Tables>, jobId: string): Promise<void> {
  const kinds = ["form", "reading", "estimate", "values"];
  const rows = await db.selectFrom("entry").select(["seq", "kind", "body_json"]).where("job_id", "=", jobId).orderBy("seq").execute();
  // what has no part in it still stands between: only what was recorded in one go follows a reading
  const before = rows.map((r) => (kinds.includes(r.kind) ? { ...(parsed(r.body_json) as object), kind: r.kind } : undefined));
  const after = readingsApart(cardsByField(before)) as (Record<string, unknown> | undefined)[];
  for (const [i, r] of rows.entries()) {
    const now = after[i];
    if (now === undefined || (now === before[i] && r.kind !== "reading")) continue;
    const { kind: _, ...body } = now;
    await db
      .updateTable("entry")
      .set({ reading_id: readingIdIn(r.kind, body), ...(now === before[i] ? {} : { body_json: JSON.stringify(body) }) })
      .where("job_id", "=", jobId)
      .where("seq", "=", r.seq)
      .execute();
  }
}
const ownIds = (dialect: Dialect): Migration => ({
  up: async (db: Kysely<unknown>) => {
    const text = textOn(dialect);
    await db.schema.alterTable("entry").addColumn("reading_id", text).execute();
    const jobs = db as Kysely<Tables>;
    for (const j of await jobs.selectFrom("job").select("id").execute()) await rewriteEntries(jobs, j.id);
    await db.schema.createIndex("entry_reading").on("entry").columns(["job_id", "reading_id"]).unique().execute();
    await db.schema
      .createTable("aside")
      .addColumn("job_id", text, (c) => c.notNull().references("job.id").onDelete("cascade"))
      .addColumn("seq", "integer", (c) => c.notNull())
      .addColumn("id", text, (c) => c.notNull())
      .addColumn("why", text, (c) => c.notNull())
      .addColumn("stored", text, (c) => c.notNull())
      .addColumn("set_aside", text, (c) => c.notNull())
      .execute();
    await db.schema
      .createTable("file_aside")
      .addColumn("job_id", text, (c) => c.notNull().references("job.id").onDelete("cascade"))
      .addColumn("hash", text, (c) => c.notNull())
      .addColumn("name", text, (c) => c.notNull())
      .addColumn("media", text, (c) => c.notNull())
      .addColumn("bytes", bytesOn(dialect), (c) => c.notNull())
      .addColumn("why", text, (c) => c.notNull())
      .addColumn("set_aside", text, (c) => c.notNull())
      .execute();
    // the index that lists jobs gets another name: by the old one an earlier Fettle would take this store for one of its own
    await db.schema.dropIndex("job_list").execute();
    await db.schema.createIndex("job_listing").on("job").columns(listedBy(dialect)).execute();
    if (dialect === "sqlite") await sql.raw(`pragma application_id = ${applicationId}`).execute(db);
  },
});

/** Jobs as a later version of the format has them: their sets, and their entries of some kinds; estimates are only looked at. */
const rewritten = (
  setIn: (set: unknown) => unknown,
  entriesIn: (entries: readonly unknown[], set: unknown) => unknown[],
  kinds: readonly string[],
): Migration => ({
  up: async (db: Kysely<unknown>) => {
    const jobs = db as Kysely<Tables>;
    for (const j of await jobs.selectFrom("job").select(["id", "set_json"]).execute()) {
      const set = parsed(j.set_json);
      if (set !== undefined)
        await jobs
          .updateTable("job")
          .set({ set_json: JSON.stringify(setIn(set)) })
          .where("id", "=", j.id)
          .execute();
      const rows = await jobs
        .selectFrom("entry")
        .select(["seq", "kind", "body_json"])
        .where("job_id", "=", j.id)
        .where("kind", "in", kinds)
        .orderBy("seq")
        .execute();
      const before = rows.map((r) => ({ ...(parsed(r.body_json) as object | undefined), kind: r.kind }));
      const after = entriesIn(before, set) as Record<string, unknown>[];
      for (const [i, r] of rows.entries()) {
        if (after[i] === before[i] || r.kind === "estimate") continue;
        const { kind, ...body } = after[i];
        await jobs
          .updateTable("entry")
          .set({ kind: String(kind), body_json: JSON.stringify(body) })
          .where("job_id", "=", j.id)
          .where("seq", "=", r.seq)
          .execute();
      }
    }
  },
});
/** Version 3: addresses by their new names, rows as rows, fits by name. */
const newAddresses = rewritten(setInThree, entriesInThree, ["values", "fact", "estimate"]);

/** Kinds of entries that version 4 of the format adds: nothing stored changes, but an earlier Fettle could not read what is kept from here on. */
const thread: Migration = { up: async () => undefined };

/** Version 5: a bulb in series is called a bulb. */
const oneWord = rewritten(setInFive, entriesInFive, ["values", "form"]);

const migrationsOf = (dialect: Dialect): Readonly<Record<string, Migration>> => ({
  "0001-jobs": first(dialect),
  "0002-titles": titles(dialect),
  "0003-own-ids": ownIds(dialect),
  "0004-addresses": newAddresses,
  "0005-thread": thread,
  "0006-bulb": oneWord,
  "0007-accounts": accountsMigration(dialect, textOn(dialect)),
  [contentStep]: contentMigration(textOn(dialect), bytesOn(dialect)),
  [keptStep]: keptMigration(textOn(dialect)),
  [madeStep]: madeMigration(textOn(dialect)),
});
/** Names of the steps that this version knows, in order. */
export const migrationNames: readonly string[] = Object.keys(migrationsOf("sqlite"));

const migratorOf = (db: Kysely<Tables>, dialect: Dialect, schema?: string): Migrator =>
  new Migrator({ db, provider: { getMigrations: async () => migrationsOf(dialect) }, migrationTableSchema: schema });

/**
 * Brings a store's tables up to date, or as far as a step of before.
 *
 * @param db the database
 * @param dialect whose it is
 * @param upTo name of the last step to do; the latest where none is named
 * @throws what the engine threw: nothing of that step is done then
 */
export async function migrateTables(db: Kysely<Tables>, dialect: Dialect, upTo?: string): Promise<void> {
  const migrator = migratorOf(db, dialect, dialect === "postgres" ? shopSchema : undefined);
  const { error } = await (upTo === undefined ? migrator.migrateToLatest() : migrator.migrateTo(upTo));
  if (error) throw error;
}
