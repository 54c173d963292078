/** Everything that reads a store's jobs: the list, one job, what was searched for, what is kept of each beside it. */
import { type Kysely, sql } from "kysely";
import type { JobAsRead, Unreadable } from "../job/read-job";
import { sayIssue } from "../units/issue";
import { holding } from "./kept-texts";
import { keepMade, type Made, madeBefore } from "./made";
import { type ReadOnce, type ReadWhole, readingOnce } from "./read-once";
import { searched } from "./search";
import { type JobStore, type JobSummary, type Keeping, StoreError } from "./store";
import type { Tables } from "./tables";
import type { Transactions } from "./transactions";

type Db = Kysely<Tables>;
type Given<C extends keyof JobStore> = Awaited<ReturnType<JobStore[C]>>;

const asideOf = (db: Db, jobId: string): Promise<Unreadable[]> =>
  db.selectFrom("aside").select(["seq", "id", "why", "stored"]).where("job_id", "=", jobId).orderBy("seq").execute();
const rowOf = (db: Db, name: string) => db.selectFrom("job").selectAll().where("name", "=", name).executeTakeFirst();
const fileColumns = ["file.hash", "file.name", "file.media", "content.bytes"] as const;

async function listed(db: Db, search: string, limit: number | undefined): Promise<Given<"list">> {
  const wanted = holding(search);
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
}

/** Jobs as they were given, by what was read of them: who asks for one that is as it was gets the same, and what follows from it with it. */
const asLoaded = new WeakMap<ReadWhole, { readonly aside: readonly Unreadable[]; readonly given: NonNullable<Given<"load">> }>();

export async function loaded(db: Db, name: string, kept = readingOnce()): Promise<Given<"load">> {
  const job = await rowOf(db, name);
  if (!job) {
    kept.forget(name);
    return undefined;
  }
  const rows = await db
    .selectFrom("entry")
    .select(["seq", "id", "kind", "at", "who", "body_json"])
    .where("job_id", "=", job.id)
    .orderBy("seq")
    .execute();
  const whole = kept.read(job, rows);
  const { head, entries: asRead } = whole;
  if (!head.ok)
    throw new StoreError(
      "unreadable",
      `the description of the set "${name}" can't be read (${head.issues.map(sayIssue).join("; ")}): its export keeps everything as stored`,
    );
  const aside = await asideOf(db, job.id);
  const before = asLoaded.get(whole);
  if (before && JSON.stringify(before.aside) === JSON.stringify(aside)) return before.given;
  const entries = asRead.flatMap(({ read: r }) => (r.ok ? [r.value] : []));
  const unreadable = [...aside, ...asRead.flatMap(({ lost }) => (lost ? [lost] : []))];
  const given = { document: { ...head.value.document, entries }, revision: job.revision, unreadable };
  asLoaded.set(whole, { aside, given });
  return given;
}

async function asStored(db: Db, name: string): Promise<Given<"stored">> {
  const job = await rowOf(db, name);
  if (!job) return undefined;
  const entries = await db.selectFrom("entry").selectAll().where("job_id", "=", job.id).orderBy("seq").execute();
  return { job, entries, aside: await asideOf(db, job.id) };
}

const filesOf = (db: Db, name: string) =>
  db
    .selectFrom("file")
    .innerJoin("content", "content.sha256", "file.sha256")
    .where("job_id", "=", (e) => e.selectFrom("job").select("id").where("name", "=", name))
    .select(fileColumns);
const asBytes = <F extends { readonly bytes: Uint8Array }>(f: F): F => ({ ...f, bytes: new Uint8Array(f.bytes) });

/** What some work makes of every job, the first made first: of a job that is as it was, what was made of it before. One that can't be read is left out. */
async function madeOfAll<T>(on: Transactions, work: (job: JobAsRead) => T, kept: ReadOnce, keeping?: Keeping<T>): Promise<readonly T[]> {
  const { db } = on;
  const jobs = await db.selectFrom("job").select(["id", "name", "revision"]).orderBy("updated").orderBy("name").execute();
  const before = kept.made(work);
  const [now, anew] = [new Map<string, Made<T>>(), new Map<string, Made<T>>()];
  const stored = keeping && jobs.some((j) => before.get(j.id)?.revision !== j.revision) ? await madeBefore(db, keeping) : undefined;
  for (const { id, name, revision } of jobs) {
    const had = [before.get(id), stored?.get(id)].find((m) => m?.revision === revision);
    if (had) {
      now.set(id, had);
      continue;
    }
    // others have their turn between two jobs
    await new Promise((r) => setImmediate(r));
    const found = await loaded(db, name).catch((e) => {
      if (e instanceof StoreError) return undefined;
      throw e;
    });
    if (!found) continue;
    const made = { revision: found.revision, made: work(found) };
    now.set(id, made);
    anew.set(id, made);
  }
  if (keeping) await keepMade(on, keeping, anew);
  before.clear();
  for (const [id, k] of now) before.set(id, k);
  return [...now.values()].map((k) => k.made);
}

/** A job; where its mark tells that nothing was changed, the very one that was read before. */
async function loadedOnce(on: Transactions, name: string, kept: ReadOnce): Promise<Given<"load">> {
  // before its rows: what is changed while they are read moves the mark after it
  const mark = await on.markOf(name);
  const known = mark === undefined ? undefined : kept.under(name, mark);
  if (known) return known;
  const found = await loaded(on.db, name, kept);
  if (found && mark !== undefined) kept.keep(name, mark, found);
  return found;
}

type Reading = Pick<JobStore, "ofAll" | "list" | "search" | "load" | "stored" | "revision" | "file" | "files" | "changeCount">;
/**
 * What is read of a store: nothing here changes it.
 *
 * @param on how it is asked
 * @param kept what was read of jobs so far
 * @returns the calls
 */
export const readJobs = (on: Transactions, kept: ReadOnce): Reading => {
  const { db, guard } = on;
  return {
    list: (search = "", limit) => guard(() => listed(db, search, limit)),
    search: (text, limit) => guard(() => searched(on, text, limit)),
    ofAll: (work, keeping) => guard(() => madeOfAll(on, work, kept, keeping)),
    load: (name) => guard(() => loadedOnce(on, name, kept)),
    stored: (name) => guard(() => asStored(db, name)),
    revision: (name) =>
      guard(async () => (await db.selectFrom("job").select("revision").where("name", "=", name).executeTakeFirst())?.revision),
    file: (name, hash) =>
      guard(async () => {
        const row = await filesOf(db, name).where("hash", "=", hash).executeTakeFirst();
        return row ? asBytes(row) : undefined;
      }),
    files: (name) => guard(async () => (await filesOf(db, name).orderBy("hash").execute()).map(asBytes)),
    changeCount: () =>
      guard(async () =>
        Number((await db.selectFrom("job").select(sql<number>`coalesce(sum(revision), 0)`.as("n")).executeTakeFirst())?.n ?? 0),
      ),
  };
};
