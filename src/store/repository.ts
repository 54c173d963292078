import { type Kysely, sql, type Transaction } from "kysely";
import type { Unreadable } from "../job/read-job";
import { InputError, sayIssue } from "../units/issue";
import { descriptionOf, entryOf } from "./rows";
import { checkJob, entryRow } from "./storable";
import { type JobStore, type JobSummary, type NewJob, type StoredFile, StoreError } from "./store";
import type { Tables } from "./tables";

export interface Engine {
  readonly db: Kysely<Tables>;
  readonly now: () => string;
  /** a clock that only goes on, ms: by it the waiting for another process is measured */
  readonly clockMs?: () => number;
  /** turns the engine's own errors into ours */
  readonly explain: (error: unknown, name?: string) => Error;
  /** why nothing can be written, where the store can only be read */
  readonly refuses?: StoreError;
}
/** How long a call waits, in all, for another process that holds the store. */
const patienceMs = 10_000;

/** The repositories, written once for both dialects. Every change is one transaction whose first statement takes the job's row. */
export function repository(engine: Engine): JobStore {
  const { db, clockMs = () => performance.now() } = engine;
  /** Says errors in our words. While another process holds the store it is tried again, and others have their turn meanwhile. */
  const guard = async <T>(work: () => Promise<T>): Promise<T> => {
    const startedMs = clockMs();
    for (;;) {
      try {
        return await work();
      } catch (error) {
        const said = error instanceof InputError ? error : engine.explain(error);
        if (!(said instanceof StoreError) || said.code !== "busy" || clockMs() - startedMs >= patienceMs) throw said;
        await new Promise((r) => setTimeout(r, 40));
      }
    }
  };
  const write = <T>(work: () => Promise<T>): Promise<T> => (engine.refuses ? Promise.reject(engine.refuses) : guard(work));
  /** One transaction. Where the engine has rolled back by itself (a full disk), the rollback fails too: the first error is the one to tell. */
  const transact = async <T>(work: (tx: Transaction<Tables>) => Promise<T>): Promise<T> => {
    let first: unknown;
    try {
      return await db.transaction().execute((tx) =>
        work(tx).catch((error) => {
          first = error;
          throw error;
        }),
      );
    } catch (error) {
      throw first ?? error;
    }
  };
  const putFiles = async (tx: Transaction<Tables>, jobId: string, files: readonly StoredFile[]): Promise<void> => {
    for (const f of files)
      await tx
        .insertInto("file")
        .values({ job_id: jobId, ...f })
        .onConflict((c) => c.columns(["job_id", "hash"]).doNothing())
        .execute();
  };
  const idOf = async (name: string): Promise<string | undefined> =>
    (await db.selectFrom("job").select("id").where("name", "=", name).executeTakeFirst())?.id;

  const asideOf = (jobId: string): Promise<Unreadable[]> =>
    db.selectFrom("aside").select(["seq", "id", "why", "stored"]).where("job_id", "=", jobId).orderBy("seq").execute();

  return {
    list: (search = "", limit) =>
      guard(async () => {
        const wanted = `%${search.toLowerCase().replace(/[\\%_]/g, "\\$&")}%`;
        const found = db
          .selectFrom("job")
          .where((e) =>
            e.or(["job.name" as const, "job.title" as const].map((c) => sql<boolean>`lower(${e.ref(c)}) like ${wanted} escape '\\'`)),
          );
        const { total } = await found.select((e) => e.fn.countAll<number>().as("total")).executeTakeFirstOrThrow();
        const rows = await found
          .select(["id", "name", "title", "created", "updated", "revision", "next_seq"])
          .orderBy("updated", "desc")
          .$if(limit !== undefined, (q) => q.limit(limit ?? 0))
          .execute();
        const jobs = rows.map(({ next_seq, ...r }): JobSummary => ({ ...r, entriesCount: next_seq - 1 }));
        return { jobs, total: Number(total) };
      }),

    load: (name) =>
      guard(async () => {
        const job = await db.selectFrom("job").selectAll().where("name", "=", name).executeTakeFirst();
        if (!job) return undefined;
        const rows = await db
          .selectFrom("entry")
          .select(["seq", "id", "kind", "at", "who", "body_json"])
          .where("job_id", "=", job.id)
          .orderBy("seq")
          .execute();
        const head = descriptionOf(job);
        if (!head.ok)
          throw new StoreError(
            "unreadable",
            `the description of the set "${name}" can't be read (${head.issues.map(sayIssue).join("; ")}): its export keeps everything as stored`,
          );
        const read = rows.map(entryOf);
        const entries = read.flatMap(({ read: r }) => (r.ok ? [r.value] : []));
        const unreadable = [...(await asideOf(job.id)), ...read.flatMap(({ lost }) => (lost ? [lost] : []))];
        return { document: { ...head.value.document, entries }, revision: job.revision, unreadable };
      }),

    stored: (name) =>
      guard(async () => {
        const job = await db.selectFrom("job").selectAll().where("name", "=", name).executeTakeFirst();
        if (!job) return undefined;
        const entries = await db.selectFrom("entry").selectAll().where("job_id", "=", job.id).orderBy("seq").execute();
        return { job, entries, aside: await asideOf(job.id) };
      }),

    revision: (name) =>
      guard(async () => (await db.selectFrom("job").select("revision").where("name", "=", name).executeTakeFirst())?.revision),

    create: (job: NewJob, files = []) =>
      write(() =>
        transact(async (tx) => {
          checkJob(job);
          await tx
            .insertInto("job")
            .values({
              id: job.id,
              name: job.name,
              created: job.created,
              updated: engine.now(),
              revision: 1,
              next_seq: job.entries.length + 1,
              title: job.set.title,
              set_json: JSON.stringify(job.set),
              extra_json: JSON.stringify(job.extra ?? {}),
            })
            .execute();
          for (const [i, e] of job.entries.entries())
            await tx
              .insertInto("entry")
              .values(entryRow(job.id, i + 1, e))
              .execute();
          for (const { seq, id, why, stored } of job.unreadable ?? [])
            await tx.insertInto("aside").values({ job_id: job.id, seq, id, why, stored, set_aside: engine.now() }).execute();
          await putFiles(tx, job.id, files);
        }).catch((error) => {
          throw error instanceof InputError ? error : engine.explain(error, job.name);
        }),
      ),

    append: (name, entries, files = []) =>
      write(() =>
        transact(async (tx) => {
          const job = await tx
            .updateTable("job")
            .set((eb) => ({ revision: eb("revision", "+", 1), next_seq: eb("next_seq", "+", entries.length), updated: engine.now() }))
            .where("name", "=", name)
            .returning(["id", "revision", "next_seq"])
            .executeTakeFirst();
          if (!job) throw new StoreError("no-job", `there is no job called "${name}"`);
          const start = job.next_seq - entries.length;
          for (const [i, e] of entries.entries())
            await tx
              .insertInto("entry")
              .values(entryRow(job.id, start + i, e))
              .execute();
          await putFiles(tx, job.id, files);
          return job.revision;
        }),
      ),

    erase: (name, revision) =>
      write(() =>
        transact(async (tx) => {
          const job = await tx
            .updateTable("job")
            .set((eb) => ({ revision: eb("revision", "+", 1) }))
            .where("name", "=", name)
            .returning(["id", "revision", "next_seq"])
            .executeTakeFirst();
          if (!job) throw new StoreError("no-job", `there is no job called "${name}"`);
          if (job.revision !== revision + 1)
            throw new StoreError("conflict", `"${name}" has changed in the meantime: nothing was erased; look at it first, then erase it`);
          const own = await tx.selectFrom("file").select("hash").where("job_id", "=", job.id).execute();
          const alsoIn = await tx
            .selectFrom("file as mine")
            .innerJoin("file as other", (j) => j.onRef("other.hash", "=", "mine.hash").onRef("other.job_id", "<>", "mine.job_id"))
            .innerJoin("job", "job.id", "other.job_id")
            .where("mine.job_id", "=", job.id)
            .select("job.name")
            .distinct()
            .orderBy("job.name")
            .execute();
          // what belongs to a job goes with its row: every table refers to it so
          await tx.deleteFrom("job").where("id", "=", job.id).execute();
          return { entriesCount: job.next_seq - 1, filesCount: own.length, alsoIn: alsoIn.map((j) => j.name), tracesLeft: true };
        }),
      ),

    file: (name, hash) =>
      guard(async () => {
        const id = await idOf(name);
        const row =
          id &&
          (await db
            .selectFrom("file")
            .select(["hash", "name", "media", "bytes"])
            .where("job_id", "=", id)
            .where("hash", "=", hash)
            .executeTakeFirst());
        return row ? { ...row, bytes: new Uint8Array(row.bytes) } : undefined;
      }),

    files: (name) =>
      guard(async () => {
        const id = await idOf(name);
        if (!id) return [];
        const rows = await db
          .selectFrom("file")
          .select(["hash", "name", "media", "bytes"])
          .where("job_id", "=", id)
          .orderBy("hash")
          .execute();
        return rows.map((r) => ({ ...r, bytes: new Uint8Array(r.bytes) }));
      }),

    changeCount: () =>
      guard(async () =>
        Number((await db.selectFrom("job").select(sql<number>`coalesce(sum(revision), 0)`.as("n")).executeTakeFirst())?.n ?? 0),
      ),
    close: () => db.destroy(),
  };
}
