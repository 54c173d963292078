import type { Entry } from "../job/document";
import type { JobAsRead, Unreadable } from "../job/read-job";
import type { SetDescription } from "../set/describe";
import type { Told } from "./accounts/audit";
import type { Passwords } from "./accounts/passwords";
import type { ShopKeeping } from "./accounts/shop-keeping";
import type { Retention } from "./kept/kept";

export { StoreError } from "./store-error";

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
  /** entries that can't be read, kept aside as they came */
  readonly unreadable?: readonly Unreadable[];
}
/** All that is stored of a job, word for word, whether it can be read or not. */
export interface StoredJob {
  readonly job: Readonly<Record<string, string | number>>;
  readonly entries: readonly Readonly<Record<string, string | number | null>>[];
  readonly aside: readonly Unreadable[];
}

/** An entry that holds what was looked for. */
export interface Found {
  readonly job: string;
  readonly id: string;
  readonly kind: string;
  readonly at: string;
  readonly who: string;
  /** what stands around it */
  readonly excerpt: string;
}
/** What is told of a job that has been erased. */
export interface Erased {
  readonly entriesCount: number;
  readonly filesCount: number;
  /** other jobs that point at a file of the same bytes, and keep it */
  readonly alsoIn: readonly string[];
  /** whether something of it may still stand in the database's own files, until others that have it open let go */
  readonly tracesLeft: boolean;
}

/** How what some work makes of jobs is kept beside them, so that whoever asks next reads only what has changed. */
export interface Keeping<T> {
  /** a name of the work's own */
  readonly work: string;
  /** which version of the program makes it: what another one made is made again */
  readonly madeBy: string;
  /** reads back what was made; nothing where it is not of that shape */
  readonly read: (stored: unknown) => { readonly made: T } | undefined;
}

/** Where jobs are kept. Entries are only ever appended, but for a job that is erased as a whole, and only what can be read back. What a call has acknowledged survives the process being killed. */
export interface JobStore {
  /** jobs whose name or title holds what is searched for, the latest first, at most `limit` of them; `total` counts all that match */
  readonly list: (search?: string, limit?: number) => Promise<{ readonly jobs: readonly JobSummary[]; readonly total: number }>;
  /** entries of all jobs that hold a text, the latest first, at most `limit` of them */
  readonly search: (text: string, limit: number) => Promise<{ readonly found: readonly Found[]; readonly more: boolean }>;
  /** the job with every entry that can be read, and beside it those that can't, each with why */
  readonly load: (name: string) => Promise<(JobAsRead & { readonly revision: number }) | undefined>;
  /**
   * what some work makes of every job, the one changed longest ago first: each job is read once for as long as it stays as it is, however often the same work is
   * asked for
   *
   * @param keeping how it is kept in the store as well, for whoever asks next; where it isn't said, in memory alone
   */
  readonly ofAll: <T>(work: (job: JobAsRead) => T, keeping?: Keeping<T>) => Promise<readonly T[]>;
  readonly stored: (name: string) => Promise<StoredJob | undefined>;
  /** counts up with every change of the job; undefined where there is none of that name */
  readonly revision: (name: string) => Promise<number | undefined>;
  readonly create: (job: NewJob, files?: readonly StoredFile[]) => Promise<void>;
  /**
   * appends entries and files in one transaction; returns the job's new revision. What is there already, under the same ids and by the same person, is left at
   * that: who never heard that it was recorded may send it again
   *
   * @param told what the trail tells of it, in the same transaction, where it is a keeper's act
   */
  readonly append: (name: string, entries: readonly Entry[], files?: readonly StoredFile[], told?: Told) => Promise<number>;
  /**
   * takes a whole job out for good, all that belongs to it with it: entries, files, what was set aside
   *
   * @param revision what the person has seen or exported; a job that has changed since stays as it is
   * @param who by whom, for the trail
   */
  readonly erase: (name: string, revision: number, who: string) => Promise<Erased>;
  readonly file: (name: string, hash: string) => Promise<StoredFile | undefined>;
  readonly files: (name: string) => Promise<StoredFile[]>;
  /** a number that changes whenever any process has written */
  readonly changeCount: () => Promise<number>;
  /** who may come in, and what they did, where the store is a shop's */
  readonly keeping: (hashed?: Passwords) => ShopKeeping;
  /** how long what is kept, and what is past its time */
  readonly retention: () => Retention;
  readonly close: () => Promise<void>;
}
