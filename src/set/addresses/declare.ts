import type { State } from "../../standards/cautions";
import type { Bare } from "../../units/bare";
import type { Dimension } from "../../units/dimensions";
import { exact, type Spread, tolerance } from "../../units/quantity";
import type { Column } from "../columns";

/**
 * What a job stores, declared once: an address with what stands there. A `*` in it is the band, stage or fitting that the question is about. Questions
 * refer to addresses, and none means another thing at one than the next.
 */
interface Said {
  readonly meaning: string;
  readonly howMeasured: string;
  /** what reading it wants of the set, where the words of how it is measured do not tell */
  readonly state?: State;
}
interface Limits {
  /** whether it can only be above 0 */
  readonly positive?: boolean;
  readonly min?: number;
  readonly max?: number;
  /** how well it is known where nobody says a tolerance; else as its dimension has it */
  readonly bare?: Bare;
}
/** What is taken where nobody has looked: a value, half its tolerance (0 where it is exact) or its spread, and where that comes from. */
export type Usual = readonly [value: number, half: number | Spread, source: string];
export interface QuantityAt extends Said, Limits {
  readonly kind: "quantity";
  readonly dimension: Dimension;
  readonly usual?: Usual;
}
export interface ChoiceAt<O extends readonly string[] = readonly string[]> extends Said {
  readonly kind: "choice";
  readonly options: O;
  readonly usual?: O[number];
}
export interface ListAt<C extends Readonly<Record<string, Column>> = Readonly<Record<string, Column>>> extends Said {
  readonly kind: "list";
  readonly columns: C;
  readonly mostRows: number;
}
export type StoredAt = QuantityAt | ChoiceAt | ListAt;
/** A declaration with its address, and the kind of fitting that alone has it. */
export type Addressed<S extends StoredAt = StoredAt> = S & { readonly address: string; readonly fitting?: string };

/** A quantity: dimension, meaning, how it is measured, what is usual, its limits. */
export const quantity = (
  dimension: Dimension,
  meaning: string,
  howMeasured: string,
  usual?: Usual,
  more: Limits & Pick<Said, "state"> = {},
): QuantityAt => ({ kind: "quantity", dimension, meaning, howMeasured, ...(usual ? { usual } : {}), ...more });
/** A quantity that is exact as it is typed: a count, a limit, a wish, a nominal rating, or what is itself a doubt. */
export const exactly = (q: QuantityAt): QuantityAt => ({ ...q, bare: "exact" });
/** One of a few words. */
export const choice = <const O extends readonly string[]>(
  options: O,
  meaning: string,
  howMeasured: string,
  usual?: O[number],
  more: Pick<Said, "state"> = {},
): ChoiceAt<O> => ({ kind: "choice", options, meaning, howMeasured, ...(usual === undefined ? {} : { usual }), ...more });
/** Rows that a person types, of these columns. */
export const list = <const C extends Readonly<Record<string, Column>>>(
  columns: C,
  meaning: string,
  howMeasured: string,
  mostRows = 200,
): ListAt<C> => ({ kind: "list", columns, meaning, howMeasured, mostRows });

/** Gives each declaration its address at a holder, such as `line` or `bands.*`; nothing for what stands by itself. */
export const addresses = <const A extends Readonly<Record<string, StoredAt>>>(
  holder: string,
  all: A,
  fitting?: string,
): { readonly [K in keyof A]: Addressed<A[K]> } =>
  Object.fromEntries(
    Object.entries(all).map(([name, s]) => [
      name,
      { ...s, address: holder === "" ? name : `${holder}.${name}`, ...(fitting === undefined ? {} : { fitting }) },
    ]),
    // entries lose which name has which kind; each keeps its own
  ) as unknown as { readonly [K in keyof A]: Addressed<A[K]> };

/** The distribution of what is usual. */
export const spreadOf = ([, half]: Usual): Spread => (typeof half === "number" ? (half > 0 ? tolerance(half) : exact) : half);
