import type { z } from "zod";
import { bad, clip, good, type Issue, type Read, sayIssue } from "../units/issue";
import { entriesInFive, setInFive } from "./bulb";
import { type Entry, entrySchema, headSchema, type JobDocument } from "./document";
import { formatName, formatVersion } from "./format";
import { cardsByField, entriesInThree, readingsApart, setInThree } from "./migrations";

export type Migration = (old: Record<string, unknown>) => Record<string, unknown>;
/** From version n to n + 1, by n. */
const migrations: Readonly<Record<number, Migration>> = {
  1: (old) => ({ ...old, ...(Array.isArray(old.entries) ? { entries: cardsByField(old.entries) } : {}) }),
  2: (old) => ({
    ...old,
    set: setInThree(old.set),
    ...(Array.isArray(old.entries) ? { entries: entriesInThree(old.entries, old.set) } : {}),
  }),
  // faults, parts, sittings and what else version 4 adds are new kinds of entries: what was stored stays as it is
  3: (old) => old,
  4: (old) => ({ ...old, set: setInFive(old.set), ...(Array.isArray(old.entries) ? { entries: entriesInFive(old.entries) } : {}) }),
};

/**
 * Brings a job's data up to a version, one step at a time; undefined where a step is missing.
 *
 * @param job data with a version of 1 or more
 * @param by migration from version n to n + 1, by n
 * @param to version wanted
 * @returns the data at that version
 * @source house format, docs/job-format.md
 */
export function migrate(
  job: Record<string, unknown>,
  by: Readonly<Record<number, Migration>>,
  to: number,
): Record<string, unknown> | undefined {
  let out = job;
  for (let v = Number(job.version); v < to; v++) {
    if (!by[v]) return undefined;
    out = { ...by[v](out), version: v + 1 };
  }
  return out;
}

/** An entry that can't be read: kept as it was stored, and said. */
export interface Unreadable {
  /** place among the job's entries, from 1 */
  readonly seq: number;
  readonly id: string;
  readonly why: string;
  /** the entry as it was stored, verbatim */
  readonly stored: string;
}
export interface JobAsRead {
  readonly document: JobDocument;
  readonly unreadable: readonly Unreadable[];
}
const deepest = 60;
/**
 * Whether data is nested no deeper than any job's: deeper data would exhaust whoever walks it.
 *
 * @source house rule: 60 levels
 */
export function isShallow(data: unknown): boolean {
  let level: unknown[] = [data];
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > deepest) return false;
    const next: unknown[] = [];
    for (const x of level)
      if (typeof x === "object" && x !== null)
        for (const y of Array.isArray(x) ? x : Object.values(x)) if (typeof y === "object" && y !== null) next.push(y);
    level = next;
  }
  return true;
}
const tooDeep = (path: string) => bad(path, "too-deep", "data nested too deep", `at most ${deepest} levels`);

const firstIssue = (error: z.ZodError, data: unknown, path: string): Issue => {
  const first = error.issues[0];
  const read = first.path.reduce<unknown>((d, k) => (d as Record<PropertyKey, unknown> | undefined)?.[k], data);
  const text = typeof read === "number" || typeof read === "string" ? String(read) : (JSON.stringify(read)?.slice(0, 60) ?? "");
  return { path: [path, ...first.path.map(String)].join("."), code: first.code, read: clip(text), expected: first.message };
};

/**
 * Reads one entry by the definition that every stored entry is read by.
 *
 * @param data the entry, of unknown shape
 * @param path what it is called in an error
 * @returns the entry, or the located issue
 * @source house format, docs/job-format.md
 */
export function readEntry(data: unknown, path = "entry"): Read<Entry> {
  if (!isShallow(data)) return tooDeep(path);
  const r = entrySchema.safeParse(data);
  return r.success ? good(r.data) : { ok: false, issues: [firstIssue(r.error, data, path)] };
}

/**
 * Reads entries one by one: those that can be read, and those that can't, each with why.
 *
 * @param list entries of unknown shape
 * @param path what they are called in an error
 * @source house format, docs/job-format.md
 */
export function readEntries(list: readonly unknown[], path = "entries"): { readonly entries: Entry[]; readonly unreadable: Unreadable[] } {
  const entries: Entry[] = [];
  const unreadable: Unreadable[] = [];
  for (const [i, data] of readingsApart(list).entries()) {
    const r = readEntry(data, `${path}.${i}`);
    if (r.ok) entries.push(r.value);
    else unreadable.push({ seq: i + 1, id: idOf(data), why: sayIssue(r.issues[0]), stored: storedText(data) });
  }
  return { entries, unreadable };
}
const idOf = (data: unknown): string => {
  const id = (data as { id?: unknown } | null)?.id;
  return typeof id === "string" ? clip(id) : "";
};
/** Data as JSON; what is nested too deep to be written again is only named. */
const storedText = (data: unknown): string => (isShallow(data) ? (JSON.stringify(data) ?? "") : '"nested too deep to be kept"');

/**
 * Reads a job from data of unknown shape; brings an old version up to date; refuses a newer one. An entry that can't be read hides no other.
 *
 * @param data parsed JSON
 * @param path what it is called in an error
 * @returns the job with the entries that can be read and those that can't, or the located issue
 * @source house format, docs/job-format.md
 */
export function readJob(data: unknown, path = "job.json"): Read<JobAsRead> {
  if (typeof data !== "object" || data === null || Array.isArray(data))
    return bad(path, "not-a-job", Array.isArray(data) ? "a list" : String(data), "a job as Fettle exports it");
  const job = data as Record<string, unknown>;
  if (job.format !== formatName) return bad(`${path}.format`, "not-a-job", String(job.format), `"${formatName}"`);
  if (typeof job.version !== "number" || !Number.isInteger(job.version) || job.version < 1)
    return bad(`${path}.version`, "bad-version", String(job.version), "a version number from 1");
  if (job.version > formatVersion)
    return bad(
      `${path}.version`,
      "newer-version",
      String(job.version),
      `at most ${formatVersion}: this job was written by a newer Fettle; update this one`,
    );
  const current = migrate(job, migrations, formatVersion);
  if (!current) return bad(`${path}.version`, "bad-version", String(job.version), `a version from 1 to ${formatVersion}`);
  const { entries: list, ...head } = current;
  if (!Array.isArray(list)) return bad(`${path}.entries`, "invalid_type", typeof list, "a list");
  if (!isShallow(head)) return tooDeep(path);
  const r = headSchema.safeParse(head);
  if (!r.success) return { ok: false, issues: [firstIssue(r.error, head, path)] };
  const { format, version, id, name: called, created, broughtIn, set, ...extra } = r.data;
  const { entries, unreadable } = readEntries(list, `${path}.entries`);
  const known = { format, version, id, name: called, created, ...(broughtIn ? { broughtIn } : {}), set, entries };
  return good({ document: { ...known, ...extra }, unreadable });
}
