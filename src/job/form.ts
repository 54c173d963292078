import type { State } from "../standards/cautions";

/** A record card, as data. */
export interface Form {
  readonly id: string;
  readonly title: string;
  /** steps of the job that the card belongs to */
  readonly steps: readonly string[];
  /** what filling it in wants of the set */
  readonly state: State;
  /** whether it meets the line */
  readonly line?: boolean;
  readonly fields: readonly string[];
  /** fields that the card had once: shown where something was written in them */
  readonly earlier?: readonly string[];
  /** columns of the table, where the card has one; rows are numbered */
  readonly columns?: readonly string[];
  /** columns whose cells are read at the set, one after another; what else is written beside them is known beforehand */
  readonly reads?: readonly string[];
  /** first cells that the set itself supplies: its tubes, bands or fittings, or what others may have done */
  readonly rowsFrom?: "tubes" | "bands" | "fittings" | "history";
}
