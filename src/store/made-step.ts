import type { Kysely, Migration, RawBuilder } from "kysely";

/** Step of the schema's history that keeps beside each job what some work made of it. */
export const madeStep = "0010-made";
/** What is kept is of one version of a job and made by one version of the program: any other is made again. It goes with its job. */
export const madeMigration = (text: "text" | RawBuilder<unknown>): Migration => ({
  up: async (db: Kysely<unknown>) => {
    await db.schema
      .createTable("made")
      .addColumn("job_id", text, (c) => c.notNull().references("job.id").onDelete("cascade"))
      .addColumn("work", text, (c) => c.notNull())
      .addColumn("made_by", text, (c) => c.notNull())
      .addColumn("revision", "integer", (c) => c.notNull())
      .addColumn("body_json", text, (c) => c.notNull())
      .addPrimaryKeyConstraint("made_key", ["job_id", "work"])
      .execute();
  },
});
