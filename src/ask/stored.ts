import type { Addressed, ChoiceAt, ListAt, QuantityAt } from "../set/addresses/declare";
import { spreadOf, type Usual } from "../set/addresses/declare";
import type { Bench } from "../set/bench";
import type { FromCard, Row } from "../set/columns";
import type { Quantity } from "../units/quantity";
import type { ChoiceInput, QuantityInput, TableInput } from "./inputs";

/**
 * The subject's own path in place of the `*`: `bands.*.low` at `bands.80:3.5 MHz` is `bands.80.low`.
 *
 * @param address the address
 * @param subject path of what the question is about, with its set-point where it has one
 * @returns the path
 * @source house frame
 */
export function atSubject(address: string, subject: string): string {
  const [, ...rest] = address.split("*");
  return rest.length === 0 ? address : `${subject.replace(/^([^.]+\.[^.:]+):.*$/, "$1")}${rest.join("*")}`;
}

type Choices = Readonly<Record<string, string>>;
type From<T> = (bench: Bench, chosen: Choices) => T | undefined;
interface MoreOfQuantity {
  /** taken before what is stored, such as a table's value where a type was chosen */
  readonly over?: From<Quantity>;
  /** taken where nothing is stored */
  readonly from?: From<Quantity>;
  /** what is usual here, where it is not what is usual elsewhere */
  readonly usual?: Usual;
  /** answered without where nobody has read it: `solve` then sees undefined. A zero that was read is a zero. */
  readonly optional?: true;
  /** nothing but a reading will do: a guess that was kept is none */
  readonly reading?: true;
}
interface MoreOfChoice<O extends string> {
  readonly over?: From<O>;
  readonly from?: From<O>;
  readonly usual?: O;
  /** values that a what-if may not put in place of a job's record */
  readonly recordedOnly?: (value: string) => boolean;
}
interface MoreOfList {
  /** taken where nothing was typed: a card, or readings */
  readonly from?: From<readonly Row[] | FromCard>;
  /** invented rows to show what the question does */
  readonly example?: readonly Row[];
  /** what stands in place of rows that nobody wrote, in words */
  readonly none?: string;
}
type QuantityHere<M> = QuantityInput & { readonly at: string } & (M extends { readonly optional: true }
    ? { readonly optional: true }
    : unknown);

/**
 * An input that the job stores, by its address: words, dimension and limits are the address's own.
 *
 * @param s the address
 * @param more where else it comes from, and what is usual here
 * @returns the input
 * @source house frame
 */
export function stored<const M extends MoreOfQuantity>(s: Addressed<QuantityAt>, more?: M): QuantityHere<M>;
export function stored<const O extends readonly string[]>(
  s: Addressed<ChoiceAt<O>>,
  more?: MoreOfChoice<O[number]>,
): ChoiceInput & { readonly at: string; readonly options: O };
export function stored<const C extends ListAt["columns"]>(
  s: Addressed<ListAt<C>>,
  more?: MoreOfList,
): TableInput & { readonly at: string; readonly columns: C };
export function stored(s: Addressed, more: object = {}): unknown {
  const at = s.address;
  const path = (bench: Bench): string => atSubject(at, bench.at);
  if (s.kind === "quantity") {
    const { over, from, ...rest }: MoreOfQuantity = more;
    return { ...quantityInput(s, { ...rest, from: (b, c) => over?.(b, c) ?? b.quantity(path(b)) ?? from?.(b, c) }), at };
  }
  if (s.kind === "choice") {
    const { over, from, ...rest }: MoreOfChoice<string> = more;
    return { ...choiceInput(s, { ...rest, from: (b, c) => over?.(b, c) ?? b.choice(path(b)) ?? from?.(b, c) }), at };
  }
  return { ...listInput(s, more), at };
}

/**
 * An input that only this question asks for, and that no job stores: it is tried, and gone with the answer.
 *
 * @param s what is asked, without an address
 * @param more where it comes from, and what is usual
 * @returns the input
 * @source house frame
 */
export function asked<const M extends Omit<MoreOfQuantity, "over">>(s: QuantityAt, more?: M): QuantityHere<M>;
export function asked<const O extends readonly string[]>(
  s: ChoiceAt<O>,
  more?: Omit<MoreOfChoice<O[number]>, "over">,
): ChoiceInput & { readonly options: O };
export function asked<const C extends ListAt["columns"]>(s: ListAt<C>, more?: MoreOfList): TableInput & { readonly columns: C };
export function asked(s: QuantityAt | ChoiceAt | ListAt, more: object = {}): unknown {
  return s.kind === "quantity" ? quantityInput(s, more) : s.kind === "choice" ? choiceInput(s, more) : listInput(s, more);
}

function quantityInput({ usual: always, ...said }: QuantityAt, { usual, from, optional, reading }: MoreOfQuantity): QuantityInput {
  const taken = usual ?? always;
  return {
    ...said,
    ...(taken && !optional ? { assumed: { value: taken[0], spread: spreadOf(taken), source: taken[2] } } : {}),
    ...(optional ? { optional } : {}),
    ...(reading ? { reading } : {}),
    ...(from ? { from } : {}),
  };
}
function choiceInput({ usual: always, ...said }: ChoiceAt, { usual, from, recordedOnly }: MoreOfChoice<string>): ChoiceInput {
  const assumed = usual ?? always;
  return { ...said, ...(assumed === undefined ? {} : { assumed }), ...(recordedOnly ? { recordedOnly } : {}), ...(from ? { from } : {}) };
}
function listInput(s: ListAt, { from, example, none = "none read yet" }: MoreOfList): TableInput {
  const assumed = { rows: example ?? [], source: example ? "an invented example" : none };
  return { ...s, kind: "table", from: from ?? (() => undefined), assumed };
}
