import { type Dimension, dimensionOf } from "../units/dimensions";
import { bad, type Issue } from "../units/issue";
import { printExact } from "../units/print";
import type { Quantity } from "../units/quantity";

/**
 * What is wrong with a quantity by the limits of its address: not above 0 where it must be, too small, too large.
 *
 * @param path what it is called in the error
 * @param input dimension and limits, SI
 * @param q the quantity
 * @returns nothing where it may stand
 * @source house frame
 */
export function rangeIssues(
  path: string,
  input: { readonly dimension: Dimension; readonly positive?: boolean; readonly min?: number; readonly max?: number },
  q: Quantity,
): Issue[] {
  const d = dimensionOf(input.dimension);
  const read = printExact(q.value, input.dimension);
  const wide = q.spread.shape === "rectangular" || q.spread.shape === "triangular" ? q.spread.half : 0;
  if (input.positive && !(q.value > 0))
    return bad(path, "not-positive", read, `a ${input.dimension} above 0, such as ${d.examples}`).issues as Issue[];
  if (input.positive && wide >= q.value)
    return bad(path, "spread-reaches-zero", `${read} ±${printExact(wide, input.dimension)}`, "a tolerance smaller than the value")
      .issues as Issue[];
  if (input.min !== undefined && q.value < input.min)
    return bad(path, "too-small", read, `at least ${input.min === 0 ? `0 ${d.si}`.trim() : printExact(input.min, input.dimension)}`)
      .issues as Issue[];
  if (input.max !== undefined && q.value > input.max)
    return bad(path, "too-large", read, `at most ${printExact(input.max, input.dimension)}`).issues as Issue[];
  return [];
}
