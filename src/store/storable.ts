import type { Entry } from "../job/document";
import { formatName, formatVersion } from "../job/format";
import { readEntry, readJob } from "../job/read-job";
import { bad, InputError, orThrow } from "../units/issue";
import type { NewJob } from "./store";
import { readingIdIn } from "./tables";

const largestEntryChars = 64 * 1024 * 1024;

/** The same data as it will be read back; what can't be written as JSON at all is refused. */
function roundTrip(data: unknown, path: string): unknown {
  let text: string;
  try {
    text = JSON.stringify(data);
  } catch (e) {
    throw new InputError([{ path, code: "not-json", read: (e as Error).name, expected: "data that can be stored" }]);
  }
  if (text.length > largestEntryChars)
    orThrow(bad(path, "too-large", `${Math.round(text.length / 1048576)} MB`, `at most ${largestEntryChars / 1048576} MB in one entry`));
  return JSON.parse(text);
}

/**
 * An entry as a row, refused where it would not be read back.
 *
 * @throws {InputError} naming the field
 */
export function entryRow(jobId: string, seq: number, entry: Entry) {
  const { id, kind, at, who, ...body } = orThrow(readEntry(roundTrip(entry, "entry")));
  return { job_id: jobId, seq, id, kind, at, who, reading_id: readingIdIn(kind, body), body_json: JSON.stringify(body) };
}

/** Refuses a job whose description would not be read back. */
export function checkJob({ id, name, created, set, extra }: NewJob): void {
  orThrow(readJob(roundTrip({ ...extra, format: formatName, version: formatVersion, id, name, created, set, entries: [] }, name), name));
}
