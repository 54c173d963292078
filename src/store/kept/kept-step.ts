import type { Kysely, Migration, RawBuilder } from "kysely";

/** Step of the schema's history that lets a keeper say how long things are kept. */
export const keptStep = "0009-kept-for";
/** How long each kind is kept; and of a session when it was ended, where somebody ended it. */
export const keptMigration = (text: "text" | RawBuilder<unknown>): Migration => ({
  up: async (db: Kysely<unknown>) => {
    await db.schema
      .createTable("kept_for")
      .addColumn("kind", text, (c) => c.primaryKey())
      .addColumn("count", "integer", (c) => c.notNull())
      .addColumn("unit", text, (c) => c.notNull())
      .execute();
    await db.schema.alterTable("session").addColumn("ended", text).execute();
  },
});
