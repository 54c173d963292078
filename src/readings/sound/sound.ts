import type { Read } from "../../units/issue";

/** What a sound file's head says, before a sample of it is decoded. */
export interface SoundHead {
  readonly sampleRateHz: number;
  readonly channelsCount: number;
  /** how samples are held, in words */
  readonly heldAs: string;
  /** smallest step between two samples, full scale 1; 0 where they are float */
  readonly step: number;
  /** samples of each channel; undefined where the file does not say, or says what can't be */
  readonly samplesCount?: number | undefined;
  /** when it was begun, as the recorder wrote it */
  readonly begun?: string | undefined;
  readonly warnings: readonly string[];
}
/** Samples of each channel, full scale 1, good until the next block is asked for. */
export type Block = readonly Float64Array[];
/** A sound that comes block by block, from a file or live: never whole in memory. */
export interface Sound extends SoundHead {
  readonly blocks: () => AsyncGenerator<Block>;
}
export type Pieces = AsyncIterable<Uint8Array>;
/** What reads one kind of file: whether the first bytes are of it, and how it is opened. */
export interface SoundKind {
  readonly is: (first: Uint8Array) => boolean;
  readonly open: (pieces: AsyncIterator<Uint8Array>, file: OpenedFile) => Promise<Read<Sound>>;
}
/** What of a file was read to tell its kind, and what is known of it. */
export interface OpenedFile {
  readonly name: string;
  readonly first: Uint8Array;
  /** bytes in all; undefined of what is piped in */
  readonly bytesCount?: number | undefined;
}
/** Below it not even the mains and its second harmonic can be told. */
export const leastRateHz = 250;
export const mostRateHz = 20_000_000;
export const mostChannels = 64;

/**
 * Two stretches of bytes as one.
 *
 * @source definition
 */
export function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  if (a.length === 0) return b;
  const out = new Uint8Array(a.length + b.length);
  out.set(a);
  out.set(b, a.length);
  return out;
}
