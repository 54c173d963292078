import type { JobAsRead } from "../job/read-job";
import type { Read } from "../units/issue";
import { descriptionOf, entryOf } from "./rows";
import type { Tables } from "./tables";

/** Jobs whose rows are kept as they were read. */
const mostKept = 4;
type Row = Parameters<typeof entryOf>[0];
type AsRead = ReturnType<typeof entryOf>;
interface Kept<T> {
  readonly revision: number;
  readonly made: T;
}
type JobRow = Tables["job"];
/** A job as read. */
export interface ReadWhole {
  readonly head: Read<JobAsRead>;
  readonly entries: readonly AsRead[];
}
/** A job as it was read. */
export type Found = JobAsRead & { readonly revision: number };
/** What was read of jobs, kept in memory for whoever asks again, until the job changes or is gone. */
export interface ReadOnce {
  /** a job's row and those of its entries, in order, as read: the very same again for as long as all of them say the same */
  readonly read: (job: JobRow, rows: readonly Row[]) => ReadWhole;
  /** the job whole, as it was read when its mark was the same */
  readonly under: (name: string, mark: string) => Found | undefined;
  /** keeps a job whole, as it was read after its mark */
  readonly keep: (name: string, mark: string, found: Found) => void;
  /** what some work makes of jobs, by their ids: whoever names the work gets the same again */
  readonly made: <T>(work: (...given: never) => T) => Map<string, Kept<T>>;
  /** lets go of all that was read of a job */
  readonly forget: (name: string) => void;
  /** ids of all jobs of which something is kept */
  readonly ids: () => ReadonlySet<string>;
  /** lets go of every job whose id is not among these */
  readonly keepOnly: (ids: ReadonlySet<string>) => void;
}
/**
 * Reads rows as entries, and a job's rows once only for as long as each says the same to the letter: who opens a job again, after an entry more, waits for that entry alone.
 *
 * @returns what reads, and what forgets a job that is erased
 */
export function readingOnce(): ReadOnce {
  const known = new Map<string, Known>();
  const works = new Map<unknown, Map<string, Kept<unknown>>>();
  const read: ReadOnce["read"] = (job, rows) => {
    const { id, name } = job;
    const before = known.get(name);
    const now = rows.map((row, i) => {
      const had = before?.rows[i];
      return had && saysTheSame(had.row, row) ? had : { row, read: entryOf(row) };
    });
    const isSame = before !== undefined && before.rows.length === now.length && now.every((n, i) => n === before.rows[i]);
    const isJobSame = before !== undefined && isSameJob(before.job, job);
    const whole =
      isSame && isJobSame
        ? before.whole
        : { head: before && saysTheSameOf(before.job, job) ? before.whole.head : descriptionOf(job), entries: now.map((n) => n.read) };
    known.delete(name);
    for (const oldest of known.keys()) {
      if (known.size < mostKept) break;
      known.delete(oldest);
    }
    known.set(name, { id, job, rows: now, whole });
    return whole;
  };
  return {
    read,
    under: (name, mark) => {
      const marked = known.get(name)?.marked;
      return marked?.mark === mark ? marked.found : undefined;
    },
    keep: (name, mark, found) => {
      const job = known.get(name);
      if (job) known.set(name, { ...job, marked: { mark, found } });
    },
    made: <T>(work: unknown) => {
      const kept = works.get(work) ?? new Map<string, Kept<unknown>>();
      works.set(work, kept);
      // of one work comes one type
      return kept as Map<string, Kept<T>>;
    },
    forget: (name) => {
      const id = known.get(name)?.id;
      known.delete(name);
      if (id !== undefined) for (const kept of works.values()) kept.delete(id);
    },
    ids: () => new Set([...[...known.values()].map((k) => k.id), ...[...works.values()].flatMap((kept) => [...kept.keys()])]),
    keepOnly: (ids) => {
      for (const [name, { id }] of known) if (!ids.has(id)) known.delete(name);
      for (const kept of works.values()) for (const id of kept.keys()) if (!ids.has(id)) kept.delete(id);
    },
  };
}
interface Known {
  readonly id: string;
  readonly job: JobRow;
  readonly rows: readonly { readonly row: Row; readonly read: AsRead }[];
  readonly whole: ReadWhole;
  readonly marked?: { readonly mark: string; readonly found: Found };
}
/** Whether a job is described by the same words. */
const saysTheSameOf = (a: JobRow, b: JobRow): boolean =>
  a.id === b.id && a.name === b.name && a.created === b.created && a.set_json === b.set_json && a.extra_json === b.extra_json;
const isSameJob = (a: JobRow, b: JobRow): boolean => saysTheSameOf(a, b) && a.revision === b.revision && a.updated === b.updated;
const saysTheSame = (a: Row, b: Row): boolean =>
  a.seq === b.seq && a.id === b.id && a.kind === b.kind && a.at === b.at && a.who === b.who && a.body_json === b.body_json;
