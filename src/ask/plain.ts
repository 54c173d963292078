import type { Bench } from "../set/bench";
import { good, type Read } from "../units/issue";
import type { AnySheet } from "./contract";
import type { Inputs, Plain } from "./inputs";
import { resolveInputs } from "./resolve";

/**
 * The plain inputs of a declared question as the set has them, by the question's own types.
 *
 * @param asks the declaration
 * @param bench the set
 * @returns value of each input, or the located issues
 * @source house frame
 */
export function plainOf<const I extends Inputs>(
  asks: Pick<AnySheet, "id" | "aliases"> & { readonly inputs: I },
  bench: Bench,
): Read<Plain<I>> {
  const r = resolveInputs(asks, bench);
  return r.ok ? good(r.value.plain as Plain<I>) : r;
}
