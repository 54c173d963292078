import type { Entry, JobDocument } from "../job/document";
import type { SetDescription } from "../set/describe";

export interface JobSummary {
  readonly id: string;
  readonly name: string;
  readonly title: string;
  readonly created: string;
  readonly updated: string;
  readonly revision: number;
  readonly entriesCount: number;
}
export interface StoredFile {
  readonly hash: string;
  readonly name: string;
  readonly media: string;
  readonly bytes: Uint8Array;
}
export interface NewJob {
  readonly id: string;
  readonly name: string;
  readonly created: string;
  readonly set: SetDescription;
  readonly entries: readonly Entry[];
  /** keys of the document that this version does not know, kept as they came */
  readonly extra?: Readonly<Record<string, unknown>>;
}

/** Where jobs are kept. Entries are only ever appended. What a call has acknowledged survives the process being killed. */
export interface JobStore {
  /** jobs whose name or title holds what is searched for, the latest first, at most `limit` of them; `total` counts all that match */
  readonly list: (search?: string, limit?: number) => Promise<{ readonly jobs: readonly JobSummary[]; readonly total: number }>;
  readonly load: (name: string) => Promise<{ readonly document: JobDocument; readonly revision: number } | undefined>;
  /** counts up with every change of the job; undefined where there is none of that name */
  readonly revision: (name: string) => Promise<number | undefined>;
  readonly create: (job: NewJob, files?: readonly StoredFile[]) => Promise<void>;
  /** appends entries and files in one transaction; returns the job's new revision */
  readonly append: (name: string, entries: readonly Entry[], files?: readonly StoredFile[]) => Promise<number>;
  readonly file: (name: string, hash: string) => Promise<StoredFile | undefined>;
  readonly files: (name: string) => Promise<StoredFile[]>;
  /** a number that changes whenever any process has written */
  readonly changeCount: () => Promise<number>;
  readonly close: () => Promise<void>;
}

/** The store refused: said in a person's words, with nothing changed. */
export class StoreError extends Error {
  constructor(
    readonly code: "exists" | "no-job" | "full" | "read-only" | "busy" | "unreadable" | "conflict" | "newer",
    message: string,
  ) {
    super(message);
    this.name = "StoreError";
  }
}
