/** What a measurement may show of causes that foretell different readings. */

/** Nodes and weights of Gauss-Hermite, for a standard normal. Source: Abramowitz and Stegun table 25.10, seven points, scaled. */
const hermite: readonly (readonly [number, number])[] = [
  [0, 0.4571428571],
  [1.1544053948, 0.2401231786],
  [-1.1544053948, 0.2401231786],
  [2.366759411, 0.030757124],
  [-2.366759411, 0.030757124],
  [3.7504397177, 0.00054826886],
  [-3.7504397177, 0.00054826886],
];
const farthestNode = 3.7504397177;
/** So many deviations off a case adds less to a sum than its last place. */
const farthest = 12;

/** A reading that a cause foretells, on a scale where the error is even; several where its size is not known. */
export interface Foretold {
  readonly at: number;
  /** place of the cause */
  readonly k: number;
  readonly p: number;
}
/** One thing that a test may show: how likely, the chance of each cause once it has, and the cause that it was drawn from. */
export interface Shown {
  readonly chance: number;
  readonly chances: Float64Array;
  readonly k: number;
}
/** One thing that a test may show: how likely, the weight of each cause once it has, which the next overwrites, their sum, and the cause that it was drawn from. */
export type Take = (chance: number, weights: Float64Array, all: number, k: number) => void;
/**
 * Takes up what a test may show, one after the other: each reading that is foretold with the test's own error.
 *
 * @param known readings with their chances
 * @param sd standard deviation of the test's error, on its scale
 * @param count how many causes there are
 * @param take told each
 * @source Bayes' rule, the test's error by Gauss-Hermite
 */
export function eachOutcome(known: readonly Foretold[], sd: number, count: number, take: Take): void {
  const found = hermite.map(() => new Float64Array(count));
  const alls = new Float64Array(hermite.length);
  const rises = new Float64Array(hermite.length);
  for (const x of known) {
    alls.fill(0);
    for (const f of found) f.fill(0);
    for (const o of known) {
      const d = (x.at - o.at) / sd;
      if (Math.abs(d) > farthest + farthestNode) continue;
      // exp(-(z + d)^2 / 2), but for exp(-z^2 / 2), which all share
      const here = o.p * Math.exp(-0.5 * d * d);
      takeRises(d, rises);
      for (let h = 0; h < rises.length; h++) {
        const n = here * rises[h];
        alls[h] += n;
        found[h][o.k] += n;
      }
    }
    for (let h = 0; h < found.length; h++) take(x.p * hermite[h][1], found[h], alls[h], x.k);
  }
}
/** exp(-z d) at each node: they stand in pairs about the first. */
function takeRises(d: number, into: Float64Array): void {
  into[0] = 1;
  for (let h = 1; h < hermite.length; h += 2) {
    into[h] = Math.exp(-hermite[h][0] * d);
    into[h + 1] = 1 / into[h];
  }
}
/**
 * All that a test may show.
 *
 * @param known readings with their chances
 * @param sd standard deviation of the test's error, on its scale
 * @param count how many causes there are
 * @returns what it may show
 * @source eachOutcome
 */
export function outcomesOf(known: readonly Foretold[], sd: number, count: number): readonly Shown[] {
  const shown: Shown[] = [];
  eachOutcome(known, sd, count, (chance, weights, all, k) => shown.push({ chance, chances: weights.map((w) => w / all), k }));
  return shown;
}
