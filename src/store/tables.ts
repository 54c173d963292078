import { type AccountTables, accountColumns } from "./accounts/account-tables";

/** One schema for SQLite and PostgreSQL: text, integers and bytes only; JSON is kept as text and parsed by its own schema. */
export interface Tables extends AccountTables {
  readonly job: {
    id: string;
    name: string;
    created: string;
    updated: string;
    revision: number;
    next_seq: number;
    /** the set's title as first described, so that a list reads no descriptions */
    title: string;
    set_json: string;
    extra_json: string;
  };
  readonly entry: {
    job_id: string;
    seq: number;
    id: string;
    kind: string;
    at: string;
    who: string;
    /** of a reading its own id, which no other reading of the job has */
    reading_id: string | null;
    body_json: string;
  };
  /** entries that can't be read, as they came: nothing is deleted */
  readonly aside: { job_id: string; seq: number; id: string; why: string; stored: string; set_aside: string };
  readonly file_aside: { job_id: string; hash: string; name: string; media: string; bytes: Uint8Array; why: string; set_aside: string };
  /** a job's own pointer to bytes that are kept once */
  readonly file: { job_id: string; hash: string; name: string; media: string; sha256: string };
  /** how long a kind of things is kept; one that isn't here is kept for ever */
  readonly kept_for: { kind: string; count: number; unit: string };
  /** what some work made of a job, for as long as neither the job nor the program is another */
  readonly made: { job_id: string; work: string; made_by: string; revision: number; body_json: string };
  /** bytes by what they are, however many files point at them */
  readonly content: { sha256: string; bytes: Uint8Array };
}
/** Columns of every table, checked before a store is used. */
export const columnsKnown: { readonly [T in keyof Tables]: readonly (keyof Tables[T])[] } = {
  job: ["id", "name", "created", "updated", "revision", "next_seq", "title", "set_json", "extra_json"],
  entry: ["job_id", "seq", "id", "kind", "at", "who", "reading_id", "body_json"],
  file: ["job_id", "hash", "name", "media", "sha256"],
  content: ["sha256", "bytes"],
  kept_for: ["kind", "count", "unit"],
  made: ["job_id", "work", "made_by", "revision", "body_json"],
  aside: ["job_id", "seq", "id", "why", "stored", "set_aside"],
  file_aside: ["job_id", "hash", "name", "media", "bytes", "why", "set_aside"],
  ...accountColumns,
};
/** Stands in the head of a store's file, so that it is told from another program's database: the letters FTTL. */
export const applicationId = 0x4654544c;
/** Id of the reading that an entry's body holds; null where it holds none. */
export const readingIdIn = (kind: string, body: object): string | null => {
  const { reading } = body as { readonly reading?: { readonly id?: unknown } };
  const id = kind === "reading" ? reading?.id : undefined;
  return typeof id === "string" ? id : null;
};
