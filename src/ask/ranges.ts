import { type Dimension, dimensionOf } from "../units/dimensions";
import { bad, type Issue } from "../units/issue";
import { printExact } from "../units/print";
import type { Quantity } from "../units/quantity";

/**
 * The least and the greatest size, SI, of anything that stands on a bench, by dimension, with some decades to spare; 0 stands beside them. What is
 * tried or stored beyond them is a slip of the pen, and a law that is asked about it may search without end. House rule, no source.
 */
export const benchSizes: Readonly<Record<Dimension, readonly [least: number, most: number]>> = {
  frequency: [1e-9, 1e12],
  capacitance: [1e-18, 1e3],
  inductance: [1e-15, 1e6],
  resistance: [1e-9, 1e18],
  conductance: [1e-18, 1e9],
  voltage: [1e-15, 1e9],
  current: [1e-18, 1e6],
  power: [1e-24, 1e9],
  energy: [1e-24, 1e12],
  charge: [1e-24, 1e6],
  length: [1e-9, 1e9],
  capacitancePerLength: [1e-18, 1],
  time: [1e-15, 1e12],
  ratio: [1e-15, 1e15],
  division: [1e-9, 1e9],
  chance: [1e-15, 1],
  fraction: [1e-15, 1e9],
  ppm: [1e-9, 1e9],
  decibel: [1e-9, 1e4],
  dbm: [1e-9, 1e4],
  sReading: [1e-9, 1e4],
  temperature: [1e-9, 1e5],
  angle: [1e-9, 1e6],
};

/**
 * What is wrong with a quantity by the limits of its address, and by what stands on any bench: not above 0 where it must be, too small, too large.
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
  const [least, most] = benchSizes[input.dimension];
  const size = Math.abs(q.value);
  if (size > most) return bad(path, "too-large", read, `a size of at most ${printExact(most, input.dimension)}`).issues as Issue[];
  if (size > 0 && size < least)
    return bad(path, "too-small", read, `0, or a size of at least ${printExact(least, input.dimension)}`).issues as Issue[];
  return [];
}
