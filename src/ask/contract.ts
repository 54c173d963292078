import type { StripModel } from "../physics/if-strip";
import type { Bench } from "../set/bench";
import type { DescribedStrip } from "../set/strip";
import type { Caution, State } from "../standards/cautions";
import type { Dimension } from "../units/dimensions";
import type { Issue } from "../units/issue";
import type { Quantity, Spread } from "../units/quantity";

interface Said {
  readonly meaning: string;
  readonly howMeasured: string;
  /** what reading it wants of the set, where the words of how it is measured do not tell */
  readonly state?: State;
}
export interface QuantityInput extends Said {
  readonly kind: "quantity";
  readonly dimension: Dimension;
  /** whether it can only be above 0: then it is drawn so, and refused otherwise */
  readonly positive?: boolean;
  readonly min?: number;
  readonly max?: number;
  /** where the set supplies it; `chosen` holds the choices of the same question */
  readonly from?: (bench: Bench, chosen: Readonly<Record<string, string>>) => Quantity | undefined;
  readonly assumed?: { readonly value: number; readonly spread: Spread; readonly source: string };
  /** read at the set, and answered without where nobody has: `solve` then sees undefined. A zero that was read is a zero. */
  readonly optional?: boolean;
  /** path of the set where a tried value is kept; else at the subject, by the input's own name */
  readonly keptAt?: string;
  /** the name that it is kept by at the subject, where the input's own would be another thing's too */
  readonly keptAs?: string;
  /** names that it was kept by at the subject in older jobs: they still read */
  readonly formerly?: readonly string[];
}
export interface ChoiceInput extends Said {
  readonly kind: "choice";
  readonly options: readonly string[];
  /** where the set supplies it; `chosen` holds the choices before it */
  readonly from?: (bench: Bench, chosen: Readonly<Record<string, string>>) => string | undefined;
  readonly assumed?: string;
  readonly keptAt?: string;
  /** values that a what-if may not put in place of a job's record: they must be recorded, since people rely on them */
  readonly recordedOnly?: (value: string) => boolean;
}
export interface ModelInput extends Said {
  readonly kind: "model";
  readonly of: keyof Models;
  readonly from: (bench: Bench) => DescribedStrip | undefined;
  readonly assumed: DescribedStrip;
}
/** A column of a table: a quantity, or one of a few words (held as its place among them). */
export interface Column {
  readonly meaning: string;
  readonly dimension?: Dimension;
  readonly options?: readonly string[];
  /** written before the figure, such as the V of a socket; it may be left out */
  readonly prefix?: string;
  /** whether it names sockets, where V5a and V5b are the halves of a double tube */
  readonly halves?: boolean;
  /** unit of a bare figure; on a record card it is taken only where the printed heading shows that unit */
  readonly bare?: string;
  /** may be left out of a row; it is then the first of its options, or not a number */
  readonly optional?: boolean;
}
export type Row = Readonly<Record<string, number>>;
/** A cell of a row by itself: nothing where nothing was written, and a zero that was measured is a value. */
export type Cell = number | undefined;
export const cell = (written: number | undefined): Cell => (written === undefined || Number.isNaN(written) ? undefined : written);
/** Rows as a record card has them, and the cells on it that hold nothing that can be read: those are gone round, and said. */
export interface FromCard {
  readonly rows: readonly Row[];
  readonly unread: readonly Issue[];
}
/** Rows of what was read: zero beats, a chart, a log. Their own noise is the sheet's business. */
export interface TableInput extends Said {
  readonly kind: "table";
  readonly columns: Readonly<Record<string, Column>>;
  readonly from: (bench: Bench, chosen: Readonly<Record<string, string>>) => readonly Row[] | FromCard | undefined;
  readonly assumed: { readonly rows: readonly Row[]; readonly source: string };
  readonly mostRows: number;
  /** whether rows typed on the sheet may be kept in the job: not where cards or readings hold them */
  readonly kept?: boolean;
}
export interface Models {
  readonly strip: StripModel;
}
export type Input = QuantityInput | ChoiceInput | ModelInput | TableInput;
export type Inputs = Readonly<Record<string, Input>>;
export interface Result {
  readonly dimension: Dimension;
  readonly meaning: string;
  /** what it can be known to at most, standard uncertainty: no more digits are shown, whatever its interval */
  readonly known?: number;
  /** the quantity of the set that it is, where another sheet gives the same: both must then say the same */
  readonly gives?: string;
  /** a number by definition, such as a marker, a legal edge or a count: it prints all of its own digits */
  readonly exact?: true;
}
export type Results = Readonly<Record<string, Result>>;
/** A curve's y holds what its dimension says; with `holds: "power"` it holds |H|^2, turned into dB once, after the quantiles. */
export interface Curve {
  readonly x: Dimension;
  readonly y: Dimension;
  readonly holds?: "power";
  readonly meaning: string;
}
export type Curves = Readonly<Record<string, Curve>>;

type PlainOf<I> = I extends { kind: "quantity"; optional: true }
  ? number | undefined
  : I extends { kind: "quantity" }
    ? number
    : I extends { kind: "choice"; options: readonly (infer O)[] }
      ? O
      : I extends { kind: "model"; of: infer M extends keyof Models }
        ? Models[M]
        : I extends { kind: "table"; columns: infer C }
          ? readonly { readonly [K in keyof C]: number }[]
          : never;
export type Plain<I> = { readonly [K in keyof I]: PlainOf<I[K]> };
export type NoValue = { readonly none: string };
export type Solved<R> = { readonly [K in keyof R]: number | NoValue };
export type Arrays<C> = { readonly [K in keyof C]: Float64Array };

/** Part of a result's variance that one input, or one correlated group, explains by itself. */
export interface Share {
  readonly inputs: readonly string[];
  readonly share: number;
}
export interface Figure {
  readonly dimension: Dimension;
  readonly meaning: string;
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** fraction of draws that have no value */
  readonly without: number;
  readonly known?: number;
  readonly exact?: true;
  readonly why?: string;
  readonly shares: readonly Share[];
}
export const severities = ["danger", "act", "check", "note"] as const;
export type Severity = (typeof severities)[number];
export const hazards = ["b-plus", "line", "stored-charge", "live-chassis", "heat", "none"] as const;
export type Hazard = (typeof hazards)[number];
export interface Finding<R = Results> {
  readonly id: string;
  readonly severity: Severity;
  readonly says: string;
  /** what to do; a finding with this is a step, and wants the set in a state */
  readonly do?: string;
  readonly restsOn: readonly (keyof R & string)[];
  /** what can hurt at the place; counts only where the state is open */
  readonly hazards: readonly [Hazard, ...Hazard[]];
  /** what the step wants of the set; the sheet's own where nothing is said */
  readonly state?: State;
}
/** A finding as an answer gives it: its state worked out, and what is to be heeded before it, where the state turns open there. */
export interface HeededFinding extends Finding {
  readonly state: State;
  readonly before: readonly Caution[];
}
export interface Ground<I, R> {
  readonly best: Plain<I>;
  readonly figures: { readonly [K in keyof R]: Figure };
  /** yes when 95 % of the draws say so, no when 5 % at most do, open between */
  readonly verdict: (holds: (x: Plain<I>, y: Solved<R>) => boolean) => "yes" | "no" | "open";
  /** a result as a person reads it, with interval and unit; a clause that tells a result without a value is left out of the answer, with its reason after it */
  readonly say: (result: keyof R & string) => string;
  /** the same in short, for a sentence: value and unit, digits as known */
  readonly about: (result: keyof R & string) => string;
  /** whether an input stands only as assumed: nobody has looked yet */
  readonly isAssumed: (input: string) => boolean;
  /** what a part must be rated that can see B+ in this set */
  readonly rating: PartRating;
  /** false while the chassis is live or not stated: then nothing is ever worth joining to it */
  readonly mayJoin: boolean;
}

/** The ground as findings of a sheet in files of their own see it: its inputs as `X`, its results by name. A result without a value reads NaN there. */
export type GroundOn<X, N extends string> = Omit<Ground<never, Record<N, never>>, "best" | "verdict"> & {
  readonly best: X;
  readonly verdict: (holds: (x: X, y: Record<N, number>) => boolean) => "yes" | "no" | "open";
};

export interface Trace {
  readonly label: string;
  readonly curve: string;
  readonly stroke: "ink" | "accent" | "faint";
  readonly dash?: boolean;
  readonly band?: boolean;
}
export interface FigureSpec {
  readonly id: string;
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly traces: readonly Trace[];
  /** vertical marks: a result drawn where it lies */
  readonly marks?: readonly { readonly result: string; readonly label: string }[];
  readonly yFrom?: number;
  /** a level below which the figure says less, with the words that stand on it */
  readonly floor?: { readonly y: number; readonly label: string };
}

/** Rows of numbers and words at the best values; NaN where there is none. */
export interface Table {
  readonly id: string;
  readonly title: string;
  /** `u`, SI, says to how much a column is known: no more digits are shown; an exact one holds markers, edges, counts, and shows all of theirs */
  readonly columns: readonly { readonly name: string; readonly dimension: Dimension; readonly u?: number; readonly exact?: true }[];
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

/** What a part must be rated that can see B+, and where that comes from. */
export interface PartRating {
  /** no-load crest at the highest line, as high as its tolerances let it be, V */
  readonly crestV: number;
  /** the next rated voltage that is made, V */
  readonly ratedV: number;
  /** whether the winding's volts are this set's own */
  readonly known: boolean;
  /** `630 V or more`, with its reason, for a sentence */
  readonly says: string;
}

/** Something to buy, as an answer asks for it. */
export interface Part {
  /** what it is and where it goes */
  readonly part: string;
  /** as the old one is marked, in its own notation; empty where nothing is replaced */
  readonly was: string;
  /** preferred value, printed */
  readonly value: string;
  readonly rating: string;
  /** class of safety or kind that it must be */
  readonly kind: string;
  readonly quantity: number;
  readonly why: string;
  /** volts that it is rated, where it can see B+: none goes out under what B+ reaches in this set */
  readonly seesBPlusRatedV?: number;
  /** the part by its name on the diagram, such as C14, where the record has it */
  readonly name?: string;
}

/** Standard normals of one answer, by name, for what a sheet draws itself: the same for the same seed. */
export interface Chance {
  readonly draws: number;
  readonly stream: (name: string) => Float64Array;
  /** told how far something long has come */
  readonly progress?: (said: string) => void;
}

export interface SheetOf<I extends Inputs, R extends Results, C extends Curves> {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  readonly question: `${string}?`;
  readonly subject: "set" | "stage" | "band" | "fitting" | "tube";
  /** kind of fitting that the subject is, where it is one */
  readonly fitting?: string;
  /** kinds of stage that the subject may be, where it is one */
  readonly stageKinds?: readonly string[];
  /** whether following the answer joins a connector, instrument or screen to the chassis */
  readonly joins: boolean;
  /** steps of the job that the sheet serves, by number */
  readonly steps: readonly string[];
  readonly inputs: I;
  /** other names that a person may use for an input's path */
  readonly aliases?: Readonly<Record<string, string>>;
  /** the few inputs to show first, at most five */
  readonly first: readonly (keyof I & string)[];
  readonly results: R;
  /** inputs that are read at the set: while one of them is assumed the answer is an example, and says so */
  readonly observed?: readonly (keyof I & string)[];
  /** what can hurt where those are read; nothing where not said */
  readonly readAt?: readonly [Hazard, ...Hazard[]];
  /** what a step of it wants of the set, where the finding says nothing else */
  readonly works: State;
  /** findings that hold before anything was read, by how their names begin: traps to know beforehand */
  readonly beforehand?: readonly string[];
  /** results to show first; the first of them is what `measure next` narrows */
  readonly key: readonly (keyof R & string)[];
  readonly curves: C;
  readonly prepare: (
    best: Plain<I>,
    points: number,
    chance: Chance,
  ) => {
    readonly axes: Arrays<C>;
    /** `draw` is the number of the draw, -1 at the best values */
    readonly solve: (x: Plain<I>, into: Arrays<C>, draw: number) => Solved<R>;
    /** whether the sheet draws something itself, so that it varies even where no input does */
    readonly varies?: boolean;
    /** what a sheet can't answer from its inputs: located, said before anything is drawn */
    readonly issues?: readonly Issue[];
  };
  readonly tables?: (best: Plain<I>) => readonly Table[];
  /** pictures of what lies where along a scale */
  readonly strips?: (best: Plain<I>) => readonly Strips[];
  readonly headline: (ground: Ground<I, R>) => string;
  readonly findings: (ground: Ground<I, R>) => readonly Finding<R>[];
  /** what following the answer takes to buy */
  readonly parts?: (ground: Ground<I, R>) => readonly Part[];
  readonly figures: readonly FigureSpec[];
  readonly theory: string;
  /** names under which rows typed on it are kept; worked out from its tables */
  readonly keptRows?: readonly string[];
}

/** Name by which typed rows of a sheet are kept at its subject. */
export const rowsName = (sheet: string, input: string): string =>
  `rows-${sheet}-${input}`.replace(/-([a-z])/gi, (_, c: string) => c.toUpperCase()).replace(/[^A-Za-z]/g, "");

/** A sheet with its own types forgotten, as the faces and the index see it. */
export type AnySheet = SheetOf<Inputs, Results, Curves>;

/** Declares a sheet: names are checked against each other here, once, and forgotten afterwards. */
export function sheet<const I extends Inputs, const R extends Results, const C extends Curves>(s: SheetOf<I, R, C>): AnySheet {
  const keptRows = Object.entries(s.inputs).flatMap(([n, i]) => (i.kind === "table" && i.kept ? [rowsName(s.id, n)] : []));
  return { ...s, keptRows } as unknown as AnySheet;
}
