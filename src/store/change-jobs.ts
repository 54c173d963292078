/** Everything that changes a store's jobs: made, renamed, written to, erased, each in one transaction. */
import type { Kysely, Transaction } from "kysely";
import type { Entry } from "../job/document";
import { InputError } from "../units/issue";
import { type Told, tell } from "./accounts/audit";
import { dropUnpointed, pointedAt, putFiles } from "./content";
import { checkJob, entryRow } from "./storable";
import { type Erased, type JobStore, type NewJob, type StoredFile, StoreError } from "./store";
import type { Tables } from "./tables";
import type { Transactions } from "./transactions";

type Tx = Transaction<Tables>;
const noJob = (name: string): StoreError => new StoreError("no-job", `there is no job called "${name}"`);

async function putEntries(tx: Tx, jobId: string, first: number, entries: readonly Entry[]): Promise<void> {
  for (const [i, e] of entries.entries())
    await tx
      .insertInto("entry")
      .values(entryRow(jobId, first + i, e))
      .execute();
}

async function create(tx: Tx, job: NewJob, files: readonly StoredFile[], now: () => string): Promise<void> {
  checkJob(job);
  await tx
    .insertInto("job")
    .values({
      id: job.id,
      name: job.name,
      created: job.created,
      updated: now(),
      revision: 1,
      next_seq: job.entries.length + 1,
      title: job.set.title,
      set_json: JSON.stringify(job.set),
      extra_json: JSON.stringify(job.extra ?? {}),
    })
    .execute();
  await putEntries(tx, job.id, 1, job.entries);
  for (const { seq, id, why, stored } of job.unreadable ?? [])
    await tx.insertInto("aside").values({ job_id: job.id, seq, id, why, stored, set_aside: now() }).execute();
  await putFiles(tx, job.id, files);
}

/** The first statement takes the job's row: who else writes to it waits. */
const taken = (tx: Tx, name: string, more: { readonly entries: number; readonly updated: string }) =>
  tx
    .updateTable("job")
    .set((eb) => ({ revision: eb("revision", "+", 1), next_seq: eb("next_seq", "+", more.entries), updated: more.updated }))
    .where("name", "=", name)
    .returning(["id", "revision", "next_seq"])
    .executeTakeFirst();

/** All that was to be recorded is there already, under the same ids: an earlier try of it came through. */
class Recorded extends Error {
  constructor(readonly revision: number) {
    super("recorded already");
  }
}
/**
 * Whether rows are there already, each by the same person under the same id: all of them, or none; something of them is refused. When they were written down,
 * and what follows from that, may differ from try to try.
 */
async function recordedOf(tx: Tx, jobId: string, rows: readonly Tables["entry"][]): Promise<boolean> {
  const there = new Map<string, string>();
  for (let i = 0; i < rows.length; i += 500) {
    const ids = rows.slice(i, i + 500).map((r) => r.id);
    const found = tx.selectFrom("entry").select(["id", "kind", "who"]).where("job_id", "=", jobId).where("id", "in", ids);
    for (const { id, kind, who } of await found.execute()) there.set(id, `${kind} ${who}`);
  }
  if (there.size === 0) return false;
  const same = rows.every(({ id, kind, who }) => there.get(id) === `${kind} ${who}`);
  if (!same) throw new StoreError("conflict", "this is already recorded, under the same id: it was not recorded twice");
  return true;
}
async function append(tx: Tx, name: string, { entries, files, now, told }: Appended): Promise<number> {
  if (told) await tell(tx, now(), told);
  const job = await taken(tx, name, { entries: entries.length, updated: now() });
  if (!job) throw noJob(name);
  const rows = entries.map((e, i) => entryRow(job.id, job.next_seq - entries.length + i, e));
  // thrown, so that the job stays as it was
  if (await recordedOf(tx, job.id, rows)) throw new Recorded(job.revision - 1);
  for (const row of rows) await tx.insertInto("entry").values(row).execute();
  await putFiles(tx, job.id, files);
  return job.revision;
}
interface Appended {
  readonly entries: readonly Entry[];
  readonly files: readonly StoredFile[];
  readonly now: () => string;
  readonly told: Told | undefined;
}

/** Which job is erased, as the person has seen it. */
interface ToErase {
  readonly name: string;
  readonly revision: number;
  readonly who: string;
}
async function erase(tx: Tx, { name, revision, who }: ToErase, { now, locksRows }: Transactions): Promise<Erased> {
  const there = await tx
    .selectFrom("job")
    .select((e) => [
      "next_seq",
      e
        .selectFrom("file")
        .select((f) => f.fn.countAll<number>().as("n"))
        .whereRef("file.job_id", "=", "job.id")
        .as("files"),
    ])
    .where("name", "=", name)
    .executeTakeFirst();
  if (!there) throw noJob(name);
  // what is told is of the job as it was seen: one that has changed since is not erased
  await tell(tx, now(), { who, what: `job erased: ${there.next_seq - 1} entries, ${Number(there.files)} files`, about: name });
  const job = await taken(tx, name, { entries: 0, updated: now() });
  if (!job) throw noJob(name);
  if (job.revision !== revision + 1)
    throw new StoreError("conflict", `"${name}" has changed meanwhile: nothing was erased; look at it, then erase it`);
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
  const bytes = await pointedAt(tx, job.id);
  // what belongs to a job goes with its row: every table refers to it so
  await tx.deleteFrom("job").where("id", "=", job.id).execute();
  await dropUnpointed(tx, bytes, locksRows);
  return { entriesCount: job.next_seq - 1, filesCount: own.length, alsoIn: alsoIn.map((j) => j.name), tracesLeft: true };
}

/**
 * What changes a store, each call one transaction.
 *
 * @param on how it is asked
 * @returns the calls
 */
export const changeJobs = (on: Transactions): Changing => {
  const { db, write, writeOnce, transact, explain, now } = on;
  return {
    create: (job, files = []) =>
      write(async (cut) => {
        if (cut && (await isThere(db, job))) return;
        await transact((tx) => create(tx, job, files, now)).catch((error) => {
          throw error instanceof InputError ? error : explain(error, job.name);
        });
      }),
    append: (name, entries, files = [], told = undefined) =>
      write(() =>
        transact((tx) => append(tx, name, { entries, files, now, told })).catch((error) => {
          if (error instanceof Recorded) return error.revision;
          throw error;
        }),
      ),
    erase: (name, revision, who) => writeOnce(() => transact((tx) => erase(tx, { name, revision, who }, on))),
  };
};
type Changing = Pick<JobStore, "create" | "append" | "erase">;
/** Whether a job that was to be made was made, by a try that was cut off before it could say so. */
async function isThere(db: Kysely<Tables>, { id, name }: NewJob): Promise<boolean> {
  const there = await db.selectFrom("job").select("id").where("id", "=", id).where("name", "=", name).executeTakeFirst();
  return there !== undefined;
}
