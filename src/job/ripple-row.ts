/** One row of the table of what work makes due again. */
export interface Edge {
  readonly work: string;
  readonly makes: "redo" | "check";
  readonly target: string;
  /** what to do there, where it is less than the whole step */
  readonly task?: string;
  /** step that it waits for, where its own place in the order would be too early */
  readonly after?: string;
  readonly why: string;
  readonly sheet?: string;
  readonly result?: string;
}
