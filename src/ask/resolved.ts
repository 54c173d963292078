import type { Row } from "../set/columns";
import type { Slot } from "../set/strip";
import type { Dimension } from "../units/dimensions";
import type { Estimate } from "../units/draws";
import type { Issue } from "../units/issue";
import type { Quantity } from "../units/quantity";
import type { PlainInputs, TableInput } from "./inputs";

/** A question's inputs as an answer is worked out from them. */
/** One quantity that takes part in an answer: a plain input, or a leaf of a model. */
export interface ResolvedQuantity {
  readonly path: string;
  readonly dimension: Dimension;
  readonly meaning: string;
  readonly howMeasured: string;
  readonly positive: boolean;
  readonly quantity: Quantity;
  /** writes a drawn value into the plain inputs that `solve` sees */
  readonly slot: Slot;
}
export interface ResolvedChoice {
  readonly path: string;
  readonly meaning: string;
  readonly value: string;
  readonly options: readonly string[];
  readonly origin: "stated" | "assumed" | "tried";
}
export interface ResolvedTable {
  readonly path: string;
  readonly meaning: string;
  readonly howMeasured: string;
  readonly columns: TableInput["columns"];
  readonly rows: readonly Row[];
  readonly origin: "measured" | "assumed" | "tried";
  readonly source: string;
  /** cells of the card that could not be read, and are left out */
  readonly unread: readonly Issue[];
}
export interface Missing {
  readonly path: string;
  readonly meaning: string;
  readonly howMeasured: string;
}
/** Values of inputs that follow together from something that was read or printed, and the words that say from what. */
export interface Learnt {
  readonly estimate: Estimate;
  readonly from: string;
}
export interface Resolved {
  /** what some quantities follow from together */
  readonly learnt?: Estimate;
  readonly quantities: readonly ResolvedQuantity[];
  readonly choices: readonly ResolvedChoice[];
  readonly tables: readonly ResolvedTable[];
  /** plain inputs at their best values; written over draw by draw */
  readonly plain: PlainInputs;
  readonly missing: readonly Missing[];
  /** what may be read at the set and was not: the answer does without */
  readonly absent: readonly Absent[];
}
export interface Absent extends Missing {
  readonly dimension: Dimension;
}
/** What-ifs: path to what was written. */
export type Overrides = Readonly<Record<string, string>>;
