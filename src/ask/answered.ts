import type { Caution, State } from "../standards/cautions";
import type { Dimension } from "../units/dimensions";
import type { Origin, Quantity } from "../units/quantity";
import type { Strips, Table } from "./drawings";
import type { Picture } from "./drawn/pictures";
import type { HeededFinding, Part } from "./findings";
import type { Absent, Missing, Overrides, ResolvedTable } from "./resolved";
import type { Figure } from "./results";

/** An answer as every face renders it, and what may be asked of it. */
export interface AnsweredQuantity {
  readonly path: string;
  readonly meaning: string;
  readonly howMeasured: string;
  readonly dimension: Dimension;
  readonly quantity: Quantity;
}
export interface AnsweredChoice {
  readonly path: string;
  readonly meaning: string;
  readonly value: string;
  readonly options: readonly string[];
  readonly origin: string;
}
export interface AnsweredCurve {
  readonly meaning: string;
  readonly xDimension: Dimension;
  readonly yDimension: Dimension;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** none where no figure draws its band, and nobody asked for it */
  readonly band?: { readonly low: Float64Array; readonly high: Float64Array };
}
export interface MeasureNext {
  readonly inputs: readonly string[];
  readonly share: number;
  readonly result: string;
  readonly how: string;
  /** what reading it wants of the set, and what is to be heeded before */
  readonly state: State;
  readonly before: readonly Caution[];
}
export interface Answer {
  readonly sheet: string;
  readonly version: number;
  readonly title: string;
  readonly question: string;
  readonly at: string;
  readonly seed: number;
  readonly draws: number;
  readonly interval: "95 %, probabilistically symmetric";
  readonly headline: string;
  readonly quantities: readonly AnsweredQuantity[];
  /** what may be read at the set and was not: the answer does without */
  readonly absent: readonly Absent[];
  readonly choices: readonly AnsweredChoice[];
  readonly rows: readonly ResolvedTable[];
  /** origin of the weakest input: the answer is worth no more */
  readonly weakest: Origin;
  /** inputs that are read at the set and were not: with any, this is an example and no answer about this set */
  readonly unread: readonly string[];
  readonly results: Readonly<Record<string, Figure>>;
  readonly curves: Readonly<Record<string, AnsweredCurve>>;
  readonly tables: readonly Table[];
  readonly strips: readonly Strips[];
  /** the spot where the hands go, drawn */
  readonly drawn: readonly Picture[];
  readonly findings: readonly HeededFinding[];
  /** every caution of its steps, once */
  readonly cautions: readonly Caution[];
  readonly parts: readonly Part[];
  readonly next: readonly MeasureNext[];
  readonly missing: readonly Missing[];
}
export interface Ask {
  readonly overrides?: Overrides;
  readonly seed?: number;
  readonly draws?: number;
  readonly points?: number;
  /** leave the shares out: for redrawing while a value is dragged */
  readonly quick?: boolean;
  /** only what it asks for, as it is resolved: nothing is worked out, so that it can be told where the question itself refuses */
  readonly inputsAlone?: boolean;
  /** bands of all curves, for programs; else only of those that a figure draws with one */
  readonly bands?: "all" | undefined;
  /** told how far something long has come */
  readonly progress?: (said: string) => void;
}
