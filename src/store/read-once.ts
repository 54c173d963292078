import { entryOf } from "./rows";

/** Jobs whose rows are kept as they were read. */
const mostKept = 4;
type Row = Parameters<typeof entryOf>[0];
type AsRead = ReturnType<typeof entryOf>;
interface Kept<T> {
  readonly revision: number;
  readonly made: T;
}
/** What was read of jobs, kept in memory for whoever asks again, until the job changes or is gone. */
export interface ReadOnce {
  /** the entries of a job's rows, in order */
  readonly read: (job: { readonly id: string; readonly name: string }, rows: readonly Row[]) => readonly AsRead[];
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
  const known = new Map<string, { readonly id: string; readonly rows: readonly { readonly row: Row; readonly read: AsRead }[] }>();
  const works = new Map<unknown, Map<string, Kept<unknown>>>();
  const read: ReadOnce["read"] = ({ id, name }, rows) => {
    const before = known.get(name)?.rows;
    const now = rows.map((row, i) => {
      const had = before?.[i];
      return had && saysTheSame(had.row, row) ? had : { row, read: entryOf(row) };
    });
    known.delete(name);
    for (const oldest of known.keys()) {
      if (known.size < mostKept) break;
      known.delete(oldest);
    }
    known.set(name, { id, rows: now });
    return now.map((n) => n.read);
  };
  return {
    read,
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
const saysTheSame = (a: Row, b: Row): boolean =>
  a.seq === b.seq && a.id === b.id && a.kind === b.kind && a.at === b.at && a.who === b.who && a.body_json === b.body_json;
