import type Database from "better-sqlite3";
import { sayIssue } from "../units/issue";
import { hashOfBytes } from "./archive";
import { explainer } from "./explain";
import { identify, openLooking } from "./identify";
import { descriptionOf, entryOf } from "./rows";
import { StoreError } from "./store";
import type { Tables } from "./tables";

/** Something that is wrong with a store. */
export interface Wrong {
  readonly what: "database" | "description" | "entry" | "file" | "missing-file";
  readonly job: string;
  /** the sentence for a person */
  readonly says: string;
  /** which entry, by its place, or which file, by its hash; what can be set aside has one */
  readonly at?: { readonly jobId: string; readonly seq?: number; readonly hash?: string };
}
export interface Checked {
  readonly wrong: readonly Wrong[];
  readonly jobsCount: number;
  readonly entriesCount: number;
  readonly filesCount: number;
  /** what was set aside earlier */
  readonly asideCount: number;
}

/**
 * Looks a store through: the database itself, every description, every entry, every file against its hash. Nothing is written.
 *
 * @param path file
 * @returns what is wrong, and how much was looked at
 * @throws {StoreError} where it can't be looked at
 */
export function checkStore(path: string): Checked {
  try {
    if (identify(path) === "none") throw new StoreError("no-job", `there is no store at ${path} yet`);
    const { raw, drop } = openLooking(path);
    try {
      return lookThrough(raw);
    } finally {
      drop();
    }
  } catch (error) {
    throw explainer(path)(error);
  }
}

/** What is wrong in an open store. */
export function lookThrough(raw: Database.Database): Checked {
  const wrong: Wrong[] = databaseOf(raw);
  const count = (table: string): number =>
    raw.prepare("select 1 from sqlite_master where name = ?").get(table)
      ? (raw.prepare(`select count(*) from ${table}`).pluck().get() as number)
      : 0;
  let [entriesCount, filesCount] = [0, 0];
  const jobs = raw.prepare("select * from job order by name").all() as Tables["job"][];
  for (const job of jobs) {
    const described = descriptionOf(job);
    if (!described.ok) {
      const says = `"${job.name}": its description can't be read (${described.issues.map(sayIssue).join("; ")}); fettle export keeps everything as stored`;
      wrong.push({ what: "description", job: job.name, says });
    }
    const wanted = new Map<string, string>();
    const cleared = new Set(described.ok ? described.value.document.clearedOut?.map((f) => f.hash) : []);
    for (const row of raw.prepare("select * from entry where job_id = ? order by seq").iterate(job.id) as Iterable<Tables["entry"]>) {
      entriesCount++;
      const { read, lost } = entryOf(row);
      const at = { jobId: job.id, seq: row.seq };
      if (lost) wrong.push({ what: "entry", job: job.name, at, says: `"${job.name}", entry ${row.seq} (${row.id}): ${lost.why}` });
      else if (read.ok && read.value.kind === "attachment") wanted.set(read.value.hash, read.value.name);
      else if (read.ok && read.value.kind === "reading" && read.value.reading.file.hash !== "")
        wanted.set(read.value.reading.file.hash, read.value.reading.file.name);
    }
    for (const f of raw.prepare(filesIn(raw)).iterate(job.id) as Iterable<{
      readonly hash: string;
      readonly name: string;
      readonly bytes: Uint8Array;
    }>) {
      filesCount++;
      const whole = hashOfBytes(f.bytes) === f.hash;
      if (whole) wanted.delete(f.hash);
      else
        wrong.push({
          what: "file",
          job: job.name,
          at: { jobId: job.id, hash: f.hash },
          says: `"${job.name}", file ${f.name}: its bytes are not those that were stored`,
        });
    }
    for (const [hash, name] of wanted)
      if (!cleared.has(hash))
        wrong.push({
          what: "missing-file",
          job: job.name,
          says: `"${job.name}", file ${name}: an entry names it, but it is missing or damaged`,
        });
  }
  return { wrong, jobsCount: jobs.length, entriesCount, filesCount, asideCount: count("aside") + count("file_aside") };
}

/** Files of one job with their bytes, as this version's tables or those of before have them. */
const filesIn = (raw: Database.Database): string =>
  raw.prepare("select 1 from sqlite_master where name = 'content'").get()
    ? "select file.hash, file.name, content.bytes from file join content using (sha256) where job_id = ?"
    : "select hash, name, bytes from file where job_id = ?";

function databaseOf(raw: Database.Database): Wrong[] {
  const said = raw.pragma("integrity_check(20)") as { integrity_check: string }[];
  const broken = said.map((s) => s.integrity_check).filter((s) => s !== "ok");
  const orphans = (raw.pragma("foreign_key_check") as { table: string }[]).map((o) => `a row of ${o.table} belongs to no job`);
  return [...broken, ...orphans].map((says) => ({ what: "database", job: "", says: `the database: ${says}` }));
}
