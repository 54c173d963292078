import type { Caution, State } from "../standards/cautions";
import type { Results } from "./results";

/** What an answer means for the person: findings, and parts to buy. */
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
  /** kind of part that is recorded once it is in, and a word of it where one kind is of several things: how it is known without a name */
  readonly fills?: { readonly kind: string; readonly word?: string };
}
