import { createHash } from "node:crypto";
import { strFromU8, strToU8, zipSync } from "fflate";
import { z } from "zod";
import { type JobDocument, jobJsonSchema } from "../job/document";
import { readJob, type Unreadable } from "../job/read-job";
import { readCsv } from "../units/csv";
import { csvCell, plainCell } from "../units/csv-cell";
import { bad, good, type Read } from "../units/issue";
import { readJson } from "../units/json";
import { own } from "../units/own";
import type { StoredFile, StoredJob } from "./store";
import { unpack } from "./unpack";

/** A job as one zip of open files: job.json, its schema, each reading as CSV, and files as they came. docs/job-format.md describes it. */
const readme = `This is one job of Fettle, in open files.
job.json         the set, and everything recorded, in order (SI units; schema in job.schema.json)
readings/*.csv   the numbers of each reading, one file a reading
files/*          recordings, sweeps and photographs as they came
unreadable.json  entries that could not be read, each as stored, and why: nothing is left out
stored.json      in place of job.json where the description itself can't be read: everything stored, word for word
`;

export const hashOfBytes = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex").slice(0, 32);

const csvOf = (columns: Readonly<Record<string, readonly number[]>>): string => {
  const names = Object.keys(columns);
  const rows = Math.max(0, ...names.map((n) => columns[n].length));
  const lines = Array.from({ length: rows }, (_, i) => names.map((n) => columns[n][i] ?? "").join(","));
  return `${[names.map(csvCell).join(","), ...lines].join("\n")}\n`;
};

function columnsOf(csv: string, path: string): Read<Record<string, number[]>> {
  const [head = [], ...lines] = readCsv(csv);
  const columns = head.map((): number[] => []);
  for (const [i, cells] of lines.entries())
    for (const [c, values] of columns.entries()) {
      const text = cells[c] ?? "";
      if (text === "") continue;
      const v = Number(text);
      if (!Number.isFinite(v)) return bad(`${path} line ${i + 2}`, "not-a-number", text, "a finite number");
      values.push(v);
    }
  return good(Object.fromEntries(columns.map((values, c) => [plainCell(head[c]), values])));
}

const safe = (name: string): string => name.replace(/[^\w.-]+/g, "_").slice(-60) || "file";

const json = (data: unknown): Uint8Array => strToU8(`${JSON.stringify(data, null, 1)}\n`);
/** A zip of parts in the order of their names, with a fixed time on each: the same parts give the same bytes. */
function zipOf(parts: Readonly<Record<string, Uint8Array>>, files: readonly StoredFile[]): Uint8Array {
  const all: Record<string, Uint8Array> = { ...parts, "README.txt": strToU8(readme) };
  for (const f of files) all[`files/${f.hash}-${safe(f.name)}`] = f.bytes;
  all["files.json"] = json(files.map(({ hash, name, media }) => ({ hash, name, media })));
  const ordered = Object.fromEntries(
    Object.keys(all)
      .sort()
      .map((k) => [k, all[k]]),
  );
  return zipSync(ordered, { mtime: new Date(1980, 0, 1), level: 6 });
}

/**
 * Writes a job as a zip; the same job gives the same bytes.
 *
 * @param job the job
 * @param files its files
 * @param unreadable its entries that can't be read: they go along as they were stored
 * @returns the zip, with keys in the order of the format and a fixed time on every part
 */
export function writeArchive(job: JobDocument, files: readonly StoredFile[], unreadable: readonly Unreadable[] = []): Uint8Array {
  const read = readJob(job);
  const document = read.ok ? read.value.document : job;
  const parts: Record<string, Uint8Array> = {};
  const entries = document.entries.map((e) => {
    if (e.kind !== "reading") return e;
    const name = safe(e.reading.id);
    let csv = `readings/${name}.csv`;
    for (let n = 2; Object.hasOwn(parts, csv); n++) csv = `readings/${name}-${n}.csv`;
    parts[csv] = strToU8(csvOf(e.reading.columns));
    return { ...e, reading: { ...e.reading, columns: {}, csv } };
  });
  parts["job.json"] = json({ ...document, entries });
  parts["job.schema.json"] = json(jobJsonSchema());
  if (unreadable.length > 0) parts["unreadable.json"] = json(unreadable);
  return zipOf(parts, files);
}

/** A job whose description can't be read, as it is stored, word for word. */
export const writeStored = (stored: StoredJob, files: readonly StoredFile[]): Uint8Array => zipOf({ "stored.json": json(stored) }, files);

export interface Archive {
  readonly document: JobDocument;
  readonly files: readonly StoredFile[];
  readonly unreadable: readonly Unreadable[];
}
/**
 * Reads a job from a zip. An entry that can't be read hides no other.
 *
 * @param bytes the zip
 * @param name its name, for the error
 * @returns the job, its files, and what of it can't be read; or the located issue
 */
export function readArchive(bytes: Uint8Array, name: string): Read<Archive> {
  const unpacked = unpack(bytes, name);
  if (!unpacked.ok) return unpacked;
  const parts = unpacked.value;
  const job = own(parts, "job.json");
  if (!job) return bad(name, "not-a-job", Object.keys(parts).slice(0, 3).join(", "), "a zip with job.json in it");
  const data = readJson(strFromU8(job), `${name} job.json`);
  if (!data.ok) return data;
  const numbers = withColumns(data.value, parts, name);
  if (!numbers.ok) return numbers;
  const read = readJob(data.value, `${name} job.json`);
  if (!read.ok) return read;
  const files = filesOf(parts, name);
  if (!files.ok) return files;
  const lost = lostOf(parts, name);
  if (!lost.ok) return lost;
  return good({ document: read.value.document, files: files.value, unreadable: [...lost.value, ...read.value.unreadable] });
}

/** Puts the numbers of each reading back from its own file. */
function withColumns(data: unknown, parts: Readonly<Record<string, Uint8Array>>, name: string): Read<undefined> {
  const { entries } = (data ?? {}) as { entries?: unknown };
  for (const e of (Array.isArray(entries) ? entries : []) as { kind?: string; reading?: { csv?: unknown; columns?: unknown } }[]) {
    if (e?.kind !== "reading" || typeof e.reading?.csv !== "string") continue;
    const csv = own(parts, e.reading.csv);
    if (!csv) return bad(`${name} ${e.reading.csv}`, "missing-file", "", "the numbers of the reading");
    const columns = columnsOf(strFromU8(csv), `${name} ${e.reading.csv}`);
    if (!columns.ok) return columns;
    const { csv: _, ...rest } = e.reading;
    e.reading = { ...rest, columns: columns.value };
  }
  return good(undefined);
}

const lostSchema = z.array(z.object({ seq: z.number().int(), id: z.string(), why: z.string(), stored: z.string() }));
function lostOf(parts: Readonly<Record<string, Uint8Array>>, name: string): Read<readonly Unreadable[]> {
  const part = own(parts, "unreadable.json");
  const listed = part ? readJson(strFromU8(part), `${name} unreadable.json`) : good<unknown>([]);
  if (!listed.ok) return listed;
  const r = lostSchema.safeParse(listed.value);
  return r.success ? good(r.data) : bad(`${name} unreadable.json`, "not-a-list", "", "entries as they were stored");
}

function filesOf(parts: Readonly<Record<string, Uint8Array>>, name: string): Read<StoredFile[]> {
  const listedPart = own(parts, "files.json");
  const listed = listedPart ? readJson(strFromU8(listedPart), `${name} files.json`) : good<unknown>([]);
  if (!listed.ok) return listed;
  if (!Array.isArray(listed.value)) return bad(`${name} files.json`, "not-a-list", "", "a list of files");
  const out: StoredFile[] = [];
  for (const f of listed.value as Partial<StoredFile>[]) {
    if (typeof f?.hash !== "string" || typeof f.name !== "string" || typeof f.media !== "string")
      return bad(`${name} files.json`, "bad-file", typeof f, "hash, name and media of a file");
    const bytes = own(parts, `files/${f.hash}-${safe(f.name)}`);
    if (!bytes) return bad(`${name} files/${f.hash}`, "missing-file", "", f.name);
    if (hashOfBytes(bytes) !== f.hash)
      return bad(`${name} files/${f.hash}`, "damaged-file", hashOfBytes(bytes), `the bytes of ${f.name} with hash ${f.hash}`);
    out.push({ hash: f.hash, name: f.name, media: f.media, bytes });
  }
  return good(out);
}
