import { createHash } from "node:crypto";
import { strFromU8, strToU8, zipSync } from "fflate";
import { type JobDocument, jobJsonSchema, readJob } from "../job/document";
import { bad, good, type Read } from "../units/issue";
import { readJson } from "../units/json";
import type { StoredFile } from "./store";
import { unpack } from "./unpack";

/** A job as one zip of open files: job.json, its schema, each reading as CSV, and files as they came. docs/job-format.md describes it. */
const readme = `This is one job of Fettle, in open files.
job.json         the set, and everything recorded, in order (SI units; schema in job.schema.json)
readings/*.csv   the numbers of each reading, one file a reading
files/*          recordings, sweeps and photographs as they came
`;

export const hashOfBytes = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex").slice(0, 32);

const csvOf = (columns: Readonly<Record<string, readonly number[]>>): string => {
  const names = Object.keys(columns);
  const rows = Math.max(0, ...names.map((n) => columns[n].length));
  const lines = Array.from({ length: rows }, (_, i) => names.map((n) => columns[n][i] ?? "").join(","));
  return `${[names.join(","), ...lines].join("\n")}\n`;
};

function columnsOf(csv: string, path: string): Read<Record<string, number[]>> {
  const [head, ...lines] = csv.trimEnd().split(/\r?\n/);
  const names = head === "" ? [] : head.split(",");
  const out: Record<string, number[]> = Object.fromEntries(names.map((n) => [n, []]));
  for (let i = 0; i < lines.length; i++) {
    const cells = lines[i].split(",");
    for (let c = 0; c < names.length; c++) {
      if (cells[c] === "" || cells[c] === undefined) continue;
      const v = Number(cells[c]);
      if (!Number.isFinite(v)) return bad(`${path} line ${i + 2}`, "not-a-number", cells[c], "a finite number");
      out[names[c]].push(v);
    }
  }
  return good(out);
}

const safe = (name: string): string => name.replace(/[^\w.-]+/g, "_").slice(-60) || "file";

/**
 * Writes a job as a zip; the same job gives the same bytes.
 *
 * @param job the job
 * @param files its files
 * @returns the zip, with keys in the order of the format and a fixed time on every part
 */
export function writeArchive(job: JobDocument, files: readonly StoredFile[]): Uint8Array {
  const read = readJob(job);
  const document = read.ok ? read.value : job;
  const parts: Record<string, Uint8Array> = {};
  const entries = document.entries.map((e) => {
    if (e.kind !== "reading") return e;
    const csv = `readings/${safe(e.reading.id)}.csv`;
    parts[csv] = strToU8(csvOf(e.reading.columns));
    return { ...e, reading: { ...e.reading, columns: {}, csv } };
  });
  for (const f of files) parts[`files/${f.hash}-${safe(f.name)}`] = f.bytes;
  parts["files.json"] = strToU8(
    `${JSON.stringify(
      files.map(({ hash, name, media }) => ({ hash, name, media })),
      null,
      1,
    )}\n`,
  );
  parts["job.json"] = strToU8(`${JSON.stringify({ ...document, entries }, null, 1)}\n`);
  parts["job.schema.json"] = strToU8(`${JSON.stringify(jobJsonSchema(), null, 1)}\n`);
  parts["README.txt"] = strToU8(readme);
  const ordered = Object.fromEntries(
    Object.keys(parts)
      .sort()
      .map((k) => [k, parts[k]]),
  );
  return zipSync(ordered, { mtime: new Date(1980, 0, 1), level: 6 });
}

/**
 * Reads a job from a zip.
 *
 * @param bytes the zip
 * @param name its name, for the error
 * @returns the job and its files, or the located issue
 */
export function readArchive(
  bytes: Uint8Array,
  name: string,
): Read<{ readonly document: JobDocument; readonly files: readonly StoredFile[] }> {
  const unpacked = unpack(bytes, name);
  if (!unpacked.ok) return unpacked;
  const parts = unpacked.value;
  if (!parts["job.json"]) return bad(name, "not-a-job", Object.keys(parts).slice(0, 3).join(", "), "a zip with job.json in it");
  const data = readJson(strFromU8(parts["job.json"]), `${name} job.json`);
  if (!data.ok) return data;
  const job = data.value as { entries?: unknown };
  if (Array.isArray(job?.entries)) {
    for (const e of job.entries as { kind?: string; reading?: { csv?: unknown; columns?: unknown } }[]) {
      if (e?.kind !== "reading" || typeof e.reading?.csv !== "string") continue;
      const csv = parts[e.reading.csv];
      if (!csv) return bad(`${name} ${e.reading.csv}`, "missing-file", "", "the numbers of the reading");
      const columns = columnsOf(strFromU8(csv), `${name} ${e.reading.csv}`);
      if (!columns.ok) return columns;
      const { csv: _, ...rest } = e.reading;
      e.reading = { ...rest, columns: columns.value };
    }
  }
  const document = readJob(job, `${name} job.json`);
  if (!document.ok) return document;
  const files = filesOf(parts, name);
  return files.ok ? good({ document: document.value, files: files.value }) : files;
}

function filesOf(parts: Record<string, Uint8Array>, name: string): Read<StoredFile[]> {
  const listed = parts["files.json"] ? readJson(strFromU8(parts["files.json"]), `${name} files.json`) : good<unknown>([]);
  if (!listed.ok) return listed;
  if (!Array.isArray(listed.value)) return bad(`${name} files.json`, "not-a-list", "", "a list of files");
  const out: StoredFile[] = [];
  for (const f of listed.value as Partial<StoredFile>[]) {
    if (typeof f?.hash !== "string" || typeof f.name !== "string" || typeof f.media !== "string")
      return bad(`${name} files.json`, "bad-file", JSON.stringify(f), "hash, name and media of a file");
    const bytes = parts[`files/${f.hash}-${safe(f.name)}`];
    if (!bytes) return bad(`${name} files/${f.hash}`, "missing-file", "", f.name);
    if (hashOfBytes(bytes) !== f.hash)
      return bad(`${name} files/${f.hash}`, "damaged-file", hashOfBytes(bytes), `the bytes of ${f.name} with hash ${f.hash}`);
    out.push({ hash: f.hash, name: f.name, media: f.media, bytes });
  }
  return good(out);
}
