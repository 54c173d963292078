import type { Bench } from "../set/bench";
import type { Column, Row } from "../set/columns";
import type { Dimension } from "../units/dimensions";
import { exact, tolerance } from "../units/quantity";
import type { ChoiceInput, QuantityInput, TableInput } from "./inputs";

/** Declarations in short, for sheets with many inputs. */
type More = Omit<QuantityInput, "kind" | "dimension" | "meaning" | "howMeasured" | "assumed">;
/** A quantity above 0 unless a least value is given; `half` is the tolerance of what is assumed, 0 where it is exact. */
export const quantity = (
  dimension: Dimension,
  meaning: string,
  howMeasured: string,
  [value, half, source]: readonly [value: number, half: number, source: string],
  more: More = {},
): QuantityInput => ({
  kind: "quantity",
  dimension,
  meaning,
  howMeasured,
  ...(more.min === undefined ? { positive: true } : {}),
  assumed: { value, spread: half > 0 ? tolerance(half) : exact, source },
  ...more,
});
/** One of a few words. */
export const choice = <const O extends readonly string[]>(
  options: O,
  meaning: string,
  howMeasured: string,
  more: Omit<ChoiceInput, "kind" | "options" | "meaning" | "howMeasured"> = { assumed: options[0] },
): ChoiceInput & { readonly options: O } => ({ kind: "choice", options, meaning, howMeasured, ...more });
/** Rows of readings; none until somebody types them or a card holds them. */
export const rows = <const C extends Readonly<Record<string, Column>>>(
  columns: C,
  meaning: string,
  howMeasured: string,
  more: {
    readonly from?: (bench: Bench) => readonly Row[] | undefined;
    readonly example?: readonly Row[];
    readonly mostRows?: number;
  } = {},
): TableInput & { readonly columns: C } => ({
  kind: "table",
  columns,
  meaning,
  howMeasured,
  from: more.from ?? (() => undefined),
  assumed: { rows: more.example ?? [], source: more.example ? "an invented example" : "none read yet" },
  mostRows: more.mostRows ?? 200,
  kept: true,
});
