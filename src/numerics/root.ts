import { areApart } from "./apart";

/**
 * Where a function goes through zero between two places.
 *
 * @param f function of one number
 * @param from a place, any unit
 * @param to another, where `f` has the other sign or is zero
 * @param least how near the ends of the bracket are to come, the same unit, above 0
 * @param known what `f` is at the two places, where that is known already
 * @returns the place
 * @source regula falsi with the Illinois rule, textbook algorithm; every fourth step halves, so that it always comes to its end
 */
export function rootBetween(f: (at: number) => number, from: number, to: number, least: number, known?: readonly [number, number]): number {
  let a = from;
  let b = to;
  let [fa, fb] = known ?? [f(a), f(b)];
  let last = 0;
  for (let k = 1; areApart(Math.min(a, b), Math.max(a, b), least); k++) {
    const at = k % 4 === 0 || fb === fa ? (a + b) / 2 : (a * fb - b * fa) / (fb - fa);
    const here = f(at);
    if (here === 0) return at;
    if (here > 0 === fa > 0) {
      a = at;
      fa = here;
      if (last > 0) fb /= 2;
      last = 1;
    } else {
      b = at;
      fb = here;
      if (last < 0) fa /= 2;
      last = -1;
    }
  }
  return (a + b) / 2;
}
