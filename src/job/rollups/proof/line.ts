/** One figure of the performance record: as found, as left, by the model, and what may be said of them together. */
export interface ProofLine {
  readonly figure: string;
  readonly where: string;
  readonly method: string;
  readonly conditions: string;
  /** what the maker's chart says, where there is one */
  readonly chart?: string;
  readonly found: string;
  readonly left: string;
  readonly model: string;
  /** what the comparison says, or why there is none */
  readonly says: string;
  /** whether the figures were kept apart, since they are unlike */
  readonly refused: boolean;
  /** whether what was read last is not as it should be */
  readonly isOff?: boolean;
  /** work that can change it was recorded since it was last read */
  readonly before?: boolean;
  /** readings of a chart as parts of what this meter should read there, where both were read alike */
  readonly share?: { readonly found?: number; readonly left?: number };
}

export const proofHeads = ["What", "Where", "As found", "As left", "By the model now", "Method, conditions", "What it says"] as const;
export const proofCells = (l: ProofLine): readonly string[] => [
  l.figure,
  l.where,
  l.found,
  l.left,
  l.model,
  [l.method, l.conditions].filter((t) => t !== "").join("; "),
  l.says,
];
