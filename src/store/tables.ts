import { type ColumnType, type Kysely, type Migration, Migrator, sql } from "kysely";

/** One schema for SQLite and PostgreSQL: text, integers and bytes only; JSON is kept as text and parsed by its own schema. */
export interface Tables {
  readonly job: {
    id: string;
    name: string;
    created: string;
    updated: string;
    revision: number;
    next_seq: number;
    /** the set's title as first described, so that a list reads no descriptions */
    title: string;
    set_json: string;
    extra_json: string;
  };
  readonly entry: { job_id: string; seq: number; id: string; kind: string; at: string; who: string; body_json: string };
  readonly file: { job_id: string; hash: string; name: string; media: string; bytes: ColumnType<Uint8Array, Uint8Array, never> };
}
export type Dialect = "sqlite" | "postgres";

const first = (dialect: Dialect): Migration => ({
  up: async (db: Kysely<unknown>) => {
    await db.schema
      .createTable("job")
      .addColumn("id", "text", (c) => c.primaryKey())
      .addColumn("name", "text", (c) => c.notNull().unique())
      .addColumn("created", "text", (c) => c.notNull())
      .addColumn("updated", "text", (c) => c.notNull())
      .addColumn("revision", "integer", (c) => c.notNull())
      .addColumn("next_seq", "integer", (c) => c.notNull())
      .addColumn("set_json", "text", (c) => c.notNull())
      .addColumn("extra_json", "text", (c) => c.notNull())
      .execute();
    await db.schema
      .createTable("entry")
      .addColumn("job_id", "text", (c) => c.notNull().references("job.id").onDelete("cascade"))
      .addColumn("seq", "integer", (c) => c.notNull())
      .addColumn("id", "text", (c) => c.notNull())
      .addColumn("kind", "text", (c) => c.notNull())
      .addColumn("at", "text", (c) => c.notNull())
      .addColumn("who", "text", (c) => c.notNull())
      .addColumn("body_json", "text", (c) => c.notNull())
      .addPrimaryKeyConstraint("entry_key", ["job_id", "seq"])
      .addUniqueConstraint("entry_id", ["job_id", "id"])
      .execute();
    await db.schema
      .createTable("file")
      .addColumn("job_id", "text", (c) => c.notNull().references("job.id").onDelete("cascade"))
      .addColumn("hash", "text", (c) => c.notNull())
      .addColumn("name", "text", (c) => c.notNull())
      .addColumn("media", "text", (c) => c.notNull())
      .addColumn("bytes", dialect === "sqlite" ? "blob" : sql`bytea`, (c) => c.notNull())
      .addPrimaryKeyConstraint("file_key", ["job_id", "hash"])
      .execute();
  },
});

const titles: Migration = {
  up: async (db: Kysely<unknown>) => {
    await db.schema
      .alterTable("job")
      .addColumn("title", "text", (c) => c.notNull().defaultTo(""))
      .execute();
    const jobs = db as Kysely<Tables>;
    for (const j of await jobs.selectFrom("job").select(["id", "set_json"]).execute())
      await jobs
        .updateTable("job")
        .set({ title: String(JSON.parse(j.set_json).title) })
        .where("id", "=", j.id)
        .execute();
    // holds all that a list shows, so that no description is read for it
    await db.schema
      .createIndex("job_list")
      .on("job")
      .columns(["updated", "name", "title", "created", "revision", "next_seq", "id"])
      .execute();
  },
};

/** Brings the store's tables up to date; an unknown newer table set is left alone and reported. */
export async function migrateTables(db: Kysely<Tables>, dialect: Dialect): Promise<void> {
  const migrator = new Migrator({ db, provider: { getMigrations: async () => ({ "0001-jobs": first(dialect), "0002-titles": titles }) } });
  const { error } = await migrator.migrateToLatest();
  if (error) throw error;
}
