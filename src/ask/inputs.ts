import type { StripModel } from "../physics/if-strip-numbers";
import type { Bench } from "../set/bench";
import type { Column, FromCard, Row } from "../set/columns";
import type { DescribedStrip } from "../set/strip";
import type { State } from "../standards/cautions";
import type { Bare } from "../units/bare";
import type { Dimension } from "../units/dimensions";
import type { Quantity, Spread } from "../units/quantity";

/** What a question asks for: each input by its kind, and what `solve` sees of it. */
interface Said {
  readonly meaning: string;
  readonly howMeasured: string;
  /** what reading it wants of the set, where the words of how it is measured do not tell */
  readonly state?: State;
  /** where the job stores it: an address of the set; nothing where it is only tried */
  readonly at?: string;
}
export interface QuantityInput extends Said {
  readonly kind: "quantity";
  readonly dimension: Dimension;
  /** whether it can only be above 0: then it is drawn so, and refused otherwise */
  readonly positive?: boolean;
  readonly min?: number;
  readonly max?: number;
  /** how well it is known where nobody says a tolerance; else as its dimension has it */
  readonly bare?: Bare;
  /** where the set supplies it; `chosen` holds the choices of the same question */
  readonly from?: (bench: Bench, chosen: Readonly<Record<string, string>>) => Quantity | undefined;
  readonly assumed?: { readonly value: number; readonly spread: Spread; readonly source: string };
  /** read at the set, and answered without where nobody has: `solve` then sees undefined. A zero that was read is a zero. */
  readonly optional?: boolean;
  /** read at the set or not at all: a guess that was kept does not stand for it */
  readonly reading?: boolean;
}
export interface ChoiceInput extends Said {
  readonly kind: "choice";
  readonly options: readonly string[];
  /** where the set supplies it; `chosen` holds the choices before it */
  readonly from?: (bench: Bench, chosen: Readonly<Record<string, string>>) => string | undefined;
  readonly assumed?: string;
  /** values that a what-if may not put in place of a job's record: they must be recorded, since people rely on them */
  readonly recordedOnly?: (value: string) => boolean;
}
export interface ModelInput extends Said {
  readonly kind: "model";
  readonly of: keyof Models;
  readonly from: (bench: Bench) => DescribedStrip | undefined;
  readonly assumed: DescribedStrip;
}
/** Rows of what was read: zero beats, a chart, a log. Their own noise is the sheet's business. */
export interface TableInput extends Said {
  readonly kind: "table";
  readonly columns: Readonly<Record<string, Column>>;
  readonly from: (bench: Bench, chosen: Readonly<Record<string, string>>) => readonly Row[] | FromCard | undefined;
  readonly assumed: { readonly rows: readonly Row[]; readonly source: string };
  readonly mostRows: number;
}
export interface Models {
  readonly strip: StripModel;
}
export type Input = QuantityInput | ChoiceInput | ModelInput | TableInput;
export type Inputs = Readonly<Record<string, Input>>;
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
/** Plain inputs of any question, while they are gathered and drawn: what was not read of what may be left out has no name in them. */
export type PlainInputs = Record<string, PlainOf<Input>>;
