/** A sweep: level against frequency, as an instrument gives it. Frequencies ascend strictly. Level in dB; complex where it was measured so. */
export interface Sweep {
  readonly frequencyHz: Float64Array;
  readonly levelDb: Float64Array;
  /** standard uncertainty of each level, dB, where the file has it */
  readonly levelUDb?: Float64Array;
  readonly complex?: { readonly re: Float64Array; readonly im: Float64Array };
  /** half-width of the frequency that the printed digits leave open, Hz */
  readonly resolutionHz: number;
  readonly quantity: string;
  /** what comes back from a one-port, not what goes through a two-port */
  readonly reflection?: boolean;
  readonly warnings: readonly string[];
}

/** Columns of numbers with their headings, as a table file gives them. */
export interface NumberTable {
  readonly columns: readonly { readonly name: string; readonly unit: string; readonly values: Float64Array }[];
  /** first row of each run: a line of words or a gap in a table starts a new one */
  readonly runs: readonly number[];
  /** line of the file that each row stands on, from 1 */
  readonly lines: Int32Array;
  readonly comments: readonly string[];
  readonly warnings: readonly string[];
}
/** What a file of numbers may hold: more is refused before it is taken apart. */
export const largestTextBytes = 32 * 1024 * 1024;
export const mostLines = 500_000;
export const longestLine = 10_000;
export const mostNumbers = 1_000_000;
export const mostSweepPoints = 100_001;
