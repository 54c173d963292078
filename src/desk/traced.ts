import type { Fault } from "../job/faults/faults";

/** A fault with what its readings say now, for whoever traces it. */
export interface TracedFault extends Fault {
  /** the question that explains the readings of its place */
  readonly asks?: { readonly sheet: string; readonly at: string };
  /** what that question answers now */
  readonly explained?: string;
  /** what is still to be read once it was mended; empty where all of it was */
  readonly toRead: string;
  /** the card that it is written on, where one holds it */
  readonly readOn?: string;
}
