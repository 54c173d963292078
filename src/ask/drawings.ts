import type { Dimension } from "../units/dimensions";

/** What an answer shows: curves with their marks, tables, places along a scale. */
export interface Trace {
  readonly label: string;
  readonly curve: string;
  readonly stroke: "ink" | "accent" | "faint";
  readonly dash?: boolean;
  readonly band?: boolean;
  /** what was measured: drawn point by point, not joined */
  readonly points?: true;
}
export interface FigureSpec {
  readonly id: string;
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly traces: readonly Trace[];
  /** vertical marks: where this set stands, by an input, a figure of the strip or a result of that name; or only once it is known, not assumed */
  readonly marks?: readonly { readonly at: string; readonly label: string; readonly known?: true }[];
  readonly yFrom?: number;
  /** a level below which the figure says less, with the words that stand on it */
  readonly floor?: { readonly y: number; readonly label: string };
  /** a sweep that was read of the IF, each point against its own peak, lies over the curves: the last one, or the last as found */
  readonly overSweep?: "last" | "as found";
}

/** Rows of numbers and words at the best values; NaN where there is none. */
export interface Table {
  readonly id: string;
  readonly title: string;
  /**
   * `u`, SI, and `part` of each value say to how much a column is known, whichever is more: no more digits are shown; an exact one holds markers, edges,
   * counts, and shows all of theirs
   */
  readonly columns: readonly {
    readonly name: string;
    readonly dimension: Dimension;
    readonly u?: number;
    readonly part?: number;
    readonly exact?: true;
    /** a word that a person types back: for the screen, and nothing on paper */
    readonly typed?: true;
  }[];
  readonly rows: readonly (readonly (number | string)[])[];
}

/** Ranges and places over one axis, row above row, each in words: what is heard where. */
export interface Strips {
  readonly id: string;
  readonly title: string;
  readonly dimension: Dimension;
  readonly from: number;
  readonly to: number;
  /** what the axis is, and a second scale along it, straight from one end to the other: what each mark of the axis stands for */
  readonly axis: string;
  readonly also?: { readonly label: string; readonly atFrom: number; readonly atTo: number };
  readonly rows: readonly {
    readonly label: string;
    readonly stroke: Trace["stroke"];
    /** a place has both ends alike */
    readonly spans: readonly { readonly from: number; readonly to: number; readonly says: string }[];
  }[];
}
