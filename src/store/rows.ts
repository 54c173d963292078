import type { Entry } from "../job/document";
import { formatName, formatVersion } from "../job/format";
import { isShallow, type JobAsRead, readEntry, readJob, type Unreadable } from "../job/read-job";
import { bad, type Read, sayIssue } from "../units/issue";
import type { Tables } from "./tables";

/** What JSON holds; undefined where it is damaged. */
function parsed(json: string): unknown {
  try {
    return JSON.parse(json);
  } catch {
    return undefined;
  }
}

/** A row read as an entry, or why it can't be, with all that is stored of it word for word. */
export function entryOf({ seq, id, kind, at, who, body_json }: Omit<Tables["entry"], "job_id" | "reading_id">): {
  readonly read: Read<Entry>;
  readonly lost?: Unreadable;
} {
  const body = parsed(body_json);
  const sound = typeof body === "object" && body !== null && !Array.isArray(body);
  const read = sound ? readEntry({ ...body, id, kind, at, who }) : bad("entry", "not-json", body_json, "an entry as JSON");
  if (read.ok) return { read };
  const stored = sound && isShallow(body) ? { id, kind, at, who, ...body } : { id, kind, at, who, body_json };
  return { read, lost: { seq, id, why: sayIssue(read.issues[0]), stored: JSON.stringify(stored) } };
}

/** The row of a job read as a job without its entries, or why its description can't be read. */
export function descriptionOf({ id, name, created, set_json, extra_json }: Tables["job"]): Read<JobAsRead> {
  const head = { format: formatName, version: formatVersion, id, name, created, set: parsed(set_json), entries: [] };
  return readJob({ ...(parsed(extra_json) as object | undefined), ...head }, name);
}
