import type { State } from "../standards/cautions";
import type { Issue } from "../units/issue";
import type { FigureSpec, Strips, Table } from "./drawings";
import type { Drafting } from "./drawn/drafting";
import type { Draws, Sketch } from "./drawn/pictures";
import type { Finding, Hazard, Part, PartRating } from "./findings";
import type { Inputs, Plain } from "./inputs";
import type { Learnt, ResolvedQuantity } from "./resolved";
import type { Arrays, Curves, Figure, Results, Solved } from "./results";

/** What headline, findings and parts are written on: inputs at their best values, results with their intervals. */
export interface GroundOn<X, N extends string> {
  readonly best: X;
  readonly figures: { readonly [K in N]: Figure };
  /** yes when 95 % of the draws say so, no when 5 % at most do, open between; a result without a value reads NaN there */
  readonly verdict: (holds: (x: X, y: { readonly [K in N]: number }) => boolean) => "yes" | "no" | "open";
  /** a result as a person reads it, with interval and unit; a clause that tells a result without a value is left out of the answer, with its reason after it */
  readonly say: (result: N) => string;
  /** the same in short, for a sentence: value and unit, digits as known */
  readonly about: (result: N) => string;
  /** whether an input stands only as assumed: nobody has looked yet */
  readonly isAssumed: (input: string) => boolean;
  /** what a part must be rated that can see B+ in this set */
  readonly rating: PartRating;
  /** false while the chassis is live or not stated: then nothing is ever worth joining to it */
  readonly mayJoin: boolean;
  /** whether the answer is a first one, while a hand still turns a value: what is weighed may be weighed in coarse steps */
  readonly rough: boolean;
}
export type Ground<I, R> = GroundOn<Plain<I>, keyof R & string>;
export type AnyGround = Ground<Inputs, Results>;

/** Standard normals of one answer, by name, for what a sheet draws itself: the same for the same seed; and what is asked of it. */
export interface Chance {
  readonly draws: number;
  readonly stream: (name: string) => Float64Array;
  /** whether a curve is looked at in this draw: at the best values always, else only where its band is wanted */
  readonly wanted: (curve: string, draw: number) => boolean;
  /** told how far something long has come */
  readonly progress?: (said: string) => void;
}

/** When a question is asked at the bench. */
export const situations = ["before power", "dead", "weak", "off frequency", "noisy", "fitting", "proving"] as const;
/** Where a person would look for a question, and the bench's own words for what it is about. Common practice, no source. */
export interface Found {
  readonly when: readonly [(typeof situations)[number], ...(typeof situations)[number][]];
  readonly words: string;
}

export interface SheetOf<I extends Inputs, R extends Results, C extends Curves> {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  readonly question: `${string}?`;
  readonly found: Found;
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
  /** what readings or a printed chart say of inputs together that nobody measured one by one: their values with their covariance, by the inputs' names; nothing where none says anything */
  readonly learns?: (plain: Plain<I>, quantities: readonly ResolvedQuantity[]) => Learnt | undefined;
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
  /** what its place is drawn as; or why there is none to draw */
  readonly draws: Draws | { readonly none: string };
  /** circuits of the spot where the hands go, from the set's own values */
  readonly drawing?: (ground: Ground<I, R>, draft: Drafting<keyof R & string>) => readonly Sketch[];
  readonly headline: (ground: Ground<I, R>) => string;
  readonly findings: (ground: Ground<I, R>) => readonly Finding<R>[];
  /** what following the answer takes to buy */
  readonly parts?: (ground: Ground<I, R>) => readonly Part[];
  readonly figures: readonly FigureSpec[];
  readonly theory: string;
  /** names under which rows typed on it are kept; worked out from its tables */
  readonly keptRows?: readonly string[];
}

/** A sheet with its own types forgotten, as the faces and the index see it. */
export type AnySheet = SheetOf<Inputs, Results, Curves>;
