import type { Dimension } from "../units/dimensions";

/** What a question gives: numbers by name, curves, and each number as it is told with its interval. */
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
