/** A reading that is out of its chart or limit: what it says, at which place, and the entry that wrote it. */
export interface Sign {
  readonly place: string;
  /** what of the place it is of, where the place can have several faults side by side */
  readonly of?: string;
  /** the point that was read, so that a later reading of it is told to be of the same */
  readonly point: string;
  readonly says: string;
  readonly entry: string;
}
