import type { Transaction } from "kysely";
import type { Entry } from "../job/document";
import { InputError } from "../units/issue";
import { checkJob, entryRow } from "./storable";
import { type Erased, type JobStore, type NewJob, type StoredFile, StoreError } from "./store";
import type { Tables } from "./tables";
import type { Transactions } from "./transactions";

type Tx = Transaction<Tables>;
const noJob = (name: string): StoreError => new StoreError("no-job", `there is no job called "${name}"`);

async function putFiles(tx: Tx, jobId: string, files: readonly StoredFile[]): Promise<void> {
  for (const f of files)
    await tx
      .insertInto("file")
      .values({ job_id: jobId, ...f })
      .onConflict((c) => c.columns(["job_id", "hash"]).doNothing())
      .execute();
}
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

async function erase(tx: Tx, name: string, revision: number, now: () => string): Promise<Erased> {
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
  // what belongs to a job goes with its row: every table refers to it so
  await tx.deleteFrom("job").where("id", "=", job.id).execute();
  return { entriesCount: job.next_seq - 1, filesCount: own.length, alsoIn: alsoIn.map((j) => j.name), tracesLeft: true };
}

/**
 * What changes a store, each call one transaction.
 *
 * @param on how it is asked
 * @returns the calls
 */
export const changeJobs = ({ write, transact, explain, now }: Transactions): Pick<JobStore, "create" | "append" | "erase"> => ({
  create: (job, files = []) =>
    write(() =>
      transact((tx) => create(tx, job, files, now)).catch((error) => {
        throw error instanceof InputError ? error : explain(error, job.name);
      }),
    ),
  append: (name, entries, files = []) =>
    write(() =>
      transact(async (tx) => {
        const job = await taken(tx, name, { entries: entries.length, updated: now() });
        if (!job) throw noJob(name);
        await putEntries(tx, job.id, job.next_seq - entries.length, entries);
        await putFiles(tx, job.id, files);
        return job.revision;
      }),
    ),
  erase: (name, revision) => write(() => transact((tx) => erase(tx, name, revision, now))),
});
