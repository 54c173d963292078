import type { Span } from "./spans";

/** What a shop keeps, by kind: each for ever, unless a keeper says how long. */
export const keptKinds = {
  jobs: "Finished jobs, handed back to the owner",
  recordings: "Sound recordings of finished jobs; what was read from them stays",
  sessions: "Sign-ins that are over",
  tries: "Counts of passwords tried",
  links: "Owners' links that are over",
} as const;
export type KeptKind = keyof typeof keptKinds;
export const kindsKept: readonly KeptKind[] = ["jobs", "recordings", "sessions", "tries", "links"];

/** Something that has been kept as long as its kind is. */
export interface PastTime {
  readonly kind: KeptKind;
  /** name of the job; of the rest, what it is called */
  readonly about: string;
  /** since when nothing was done with it, ISO 8601 */
  readonly since: string;
  /** how much it is */
  readonly entriesCount: number;
  readonly filesCount: number;
  readonly bytesCount: number;
  /** what goes: the job's id, hashes of files, keys of rows */
  readonly ids: readonly string[];
  readonly jobId?: string;
  readonly revision?: number;
}
/** What has been kept as long as it is to be, and the digits by which its removal is confirmed. */
export interface Listed {
  readonly past: readonly PastTime[];
  readonly code: string;
}
/** What came of a clear-out. */
export interface ClearedOut {
  readonly past: readonly PastTime[];
  /** bytes of files that are out of the store: what another job points at stays */
  readonly bytesCount: number;
  /** whether something of it may still stand in the database's own files, until others that have it open let go */
  readonly tracesLeft: boolean;
}
/** How long a store keeps what, as its keeper says: nothing of it goes by itself. */
export interface Retention {
  /** of each kind how long; a kind that isn't there is kept for ever */
  readonly spans: () => Promise<Readonly<Partial<Record<KeptKind, Span>>>>;
  /** @param span undefined for ever */
  readonly keepFor: (kind: KeptKind, span: Span | undefined, who: string) => Promise<void>;
  readonly list: () => Promise<Listed>;
  /** removes what was listed, all of it or nothing; refused where it is no longer what was listed */
  readonly clearOut: (code: string, who: string) => Promise<ClearedOut>;
}
