import type { Kysely, Transaction } from "kysely";
import { sayIssue } from "../units/issue";
import { carryPeople } from "./accounts/carry-people";
import { fileRows, keepsOnce, putAsBefore, putFiles } from "./content";
import { jobDigest } from "./digest";
import { StoreError } from "./store";
import type { Tables } from "./tables";

type Db = Kysely<Tables>;
const rowsAtOnce = 200;
const mostNamed = 5;

/** How a whole store came over. */
export interface Carried {
  readonly jobsCount: number;
  readonly entriesCount: number;
  readonly filesCount: number;
  /** jobs that were there already, word for word */
  readonly alreadyCount: number;
}

async function carryRows(from: Db, to: Transaction<Tables>, id: string): Promise<{ readonly entries: number; readonly files: number }> {
  await to
    .insertInto("job")
    .values(await from.selectFrom("job").selectAll().where("id", "=", id).executeTakeFirstOrThrow())
    .execute();
  const entries = await from.selectFrom("entry").selectAll().where("job_id", "=", id).orderBy("seq").execute();
  for (let i = 0; i < entries.length; i += rowsAtOnce)
    await to
      .insertInto("entry")
      .values(entries.slice(i, i + rowsAtOnce))
      .execute();
  for (const row of await from.selectFrom("aside").selectAll().where("job_id", "=", id).execute())
    await to.insertInto("aside").values(row).execute();
  const hashes = await from.selectFrom("file").select("hash").where("job_id", "=", id).orderBy("hash").execute();
  const once = await keepsOnce(from);
  // one at a time: each may be large
  for (const { hash } of hashes)
    for (const { job_id, ...file } of await fileRows(from, once, id, [hash]))
      await (once ? putFiles(to, job_id, [file]) : putAsBefore(to, { job_id, ...file }));
  for (const row of await from.selectFrom("file_aside").selectAll().where("job_id", "=", id).execute())
    await to.insertInto("file_aside").values(row).execute();
  return { entries: entries.length, files: hashes.length };
}

/** Jobs that would have to be in two states at once: of the same id and another content, or of the same name and another id. */
async function clashes(from: Db, to: Db): Promise<{ readonly clashing: string[]; readonly already: Set<string> }> {
  const clashing: string[] = [];
  const already = new Set<string>();
  const there = await to.selectFrom("job").select(["id", "name"]).execute();
  const [byId, byName] = [new Map(there.map((j) => [j.id, j])), new Map(there.map((j) => [j.name, j]))];
  for (const { id, name } of await from.selectFrom("job").select(["id", "name"]).orderBy("name").execute()) {
    if (byId.has(id) && (await jobDigest(from, id)) === (await jobDigest(to, id))) already.add(id);
    else if (byId.has(id) || byName.has(name)) clashing.push(name);
  }
  return { clashing, already };
}

/**
 * Carries every job of one store into another, whole: each is compared by its checksum once it is over. A job that is there already, word for word, stays.
 *
 * @param from what is read, which nobody writes meanwhile
 * @param to one transaction of the other: all comes over, or nothing
 * @returns how much came over
 * @throws {StoreError} where a job of that name or id is there with another content, naming the jobs; where a checksum differs
 */
export async function carryAll(from: Db, to: Transaction<Tables>): Promise<Carried> {
  const { clashing, already } = await clashes(from, to);
  if (clashing.length > 0) {
    const named = clashing.slice(0, mostNamed).map((n) => `"${n}"`);
    const more = clashing.length > mostNamed ? ` and ${clashing.length - mostNamed} more` : "";
    const issue = {
      path: "file",
      code: "clash",
      read: `${named.join(", ")}${more}`,
      expected:
        "jobs that are not here yet, or are here word for word: export and erase these first, or use an empty store. Nothing was brought in",
    };
    throw new StoreError("exists", sayIssue(issue), issue);
  }
  let [jobsCount, entriesCount, filesCount] = [0, 0, 0];
  for (const { id, name } of await from.selectFrom("job").select(["id", "name"]).orderBy("id").execute()) {
    if (already.has(id)) continue;
    const { entries, files } = await carryRows(from, to, id);
    if ((await jobDigest(from, id)) !== (await jobDigest(to, id)))
      throw new StoreError("failing", `"${name}" did not come over as it was: nothing was brought in`);
    jobsCount++;
    entriesCount += entries;
    filesCount += files;
  }
  await carryPeople(from, to);
  return { jobsCount, entriesCount, filesCount, alreadyCount: already.size };
}
