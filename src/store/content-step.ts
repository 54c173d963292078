import type { Kysely, Migration, RawBuilder } from "kysely";
import { fileRows, sha256Of } from "./content";
import type { Tables } from "./tables";

type ColumnKind = "text" | "blob" | RawBuilder<unknown>;
/** Bytes are kept once, by what they are; what is damaged is kept as it is, under what it is now. */
export const contentMigration = (text: ColumnKind, bytesKind: ColumnKind): Migration => ({
  up: async (db: Kysely<unknown>) => {
    await db.schema
      .createTable("content")
      .addColumn("sha256", text, (c) => c.primaryKey())
      .addColumn("bytes", bytesKind, (c) => c.notNull())
      .execute();
    await db.schema
      .createTable("file_pointer")
      .addColumn("job_id", text, (c) => c.notNull().references("job.id").onDelete("cascade"))
      .addColumn("hash", text, (c) => c.notNull())
      .addColumn("name", text, (c) => c.notNull())
      .addColumn("media", text, (c) => c.notNull())
      .addColumn("sha256", text, (c) => c.notNull().references("content.sha256"))
      .addPrimaryKeyConstraint("file_pointer_key", ["job_id", "hash"])
      .execute();
    const jobs = db as Kysely<Tables>;
    const made = jobs.withTables<{ file_pointer: Tables["file"] }>();
    // one at a time: each may be large
    for (const { job_id, hash } of await jobs.selectFrom("file").select(["job_id", "hash"]).execute())
      for (const { bytes, ...rest } of await fileRows(jobs, false, job_id, [hash])) {
        const sha256 = sha256Of(bytes);
        await jobs
          .insertInto("content")
          .values({ sha256, bytes })
          .onConflict((c) => c.doNothing())
          .execute();
        await made
          .insertInto("file_pointer")
          .values({ ...rest, sha256 })
          .execute();
      }
    await db.schema.dropTable("file").execute();
    await db.schema.alterTable("file_pointer").renameTo("file").execute();
    await db.schema.createIndex("file_content").on("file").column("sha256").execute();
  },
});
