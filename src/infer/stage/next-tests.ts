import type { Evidence, Tolerances } from "./reading-doubt";
import { logScale, type Test, tests } from "./tests";
import type { Case } from "./weigh-faults";

export interface NextTest {
  readonly test: Test;
  /** expected information on which cause it is, bits */
  readonly bits: number;
}

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
/** Bits by how easy the test is, to a millionth: tests that tell the same stay in the order of their list. */
const worthOf = ({ bits, test }: NextTest): number => Math.round(1e6 * bits * test.ease);
interface Foretold {
  readonly at: number;
  /** place of the cause among the ids */
  readonly k: number;
  p: number;
}
/** Cases that are likely enough to count, with their chances. */
export type Likely = readonly { readonly c: Case; readonly p: number }[];
/** What a test would find by each cause, on its own scale, sizes that foretell the same taken together; nothing where one foretells nothing. */
function foretold(test: Test, likely: Likely, ids: readonly string[]): Foretold[] | undefined {
  const out: Foretold[] = [];
  const byCause = ids.map(() => new Map<number, Foretold>());
  for (const { c, p } of likely) {
    const v = test.predict(c.stage, c.fault, c.size);
    if (v === undefined) return undefined;
    const at = test.toScale(v);
    const k = ids.indexOf(c.fault.id);
    const alike = byCause[k].get(at);
    if (alike) alike.p += p;
    else {
      const own = { at, k, p };
      byCause[k].set(at, own);
      out.push(own);
    }
  }
  return out;
}

/** One thing that a test may show: how likely, the chance of each cause once it has, and the cause that it was drawn from. */
export interface Shown {
  readonly chance: number;
  readonly chances: Float64Array;
  readonly k: number;
}
/**
 * Causes of the likely cases, in their order.
 *
 * @param likely cases and their chances
 * @returns ids
 * @source definition
 */
export const causesOf = (likely: Likely): readonly string[] => [...new Set(likely.map((l) => l.c.fault.id))];
/**
 * What a test may show, each cause in each of its sizes with the test's own error.
 *
 * @param test which
 * @param likely cases and their chances
 * @param tolerances of a sound stage
 * @returns what it may show, by the causes in the order of `causesOf`; undefined where a case foretells nothing
 * @source Bayes' rule, the test's error by Gauss-Hermite
 */
export function foresee(test: Test, likely: Likely, tolerances: Tolerances): readonly Shown[] | undefined {
  const shown: Shown[] = [];
  const known = eachShown(test, likely, tolerances, (chance, weights, all, k) =>
    shown.push({ chance, chances: weights.map((w) => w / all), k }),
  );
  return known ? shown : undefined;
}
/** One thing that a test may show: how likely, the weight of each cause once it has, which the next overwrites, their sum, and the cause that it was drawn from. */
type Take = (chance: number, weights: Float64Array, all: number, k: number) => void;
/** Takes up what a test may show, one after the other. False where a case foretells nothing. */
function eachShown(test: Test, likely: Likely, tolerances: Tolerances, take: Take): boolean {
  const ids = causesOf(likely);
  const sd = Math.hypot(test.error, test.toScale === logScale ? tolerances.resistor : 0);
  const known = foretold(test, likely, ids);
  if (!known) return false;
  const found = hermite.map(() => new Float64Array(ids.length));
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
  return true;
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
 * Which test tells most about which cause it is.
 *
 * @param likely cases and their chances
 * @param evidence what was read, and the tests that were made
 * @param tolerances of a sound stage
 * @returns tests not made yet, the best first
 * @source expected information, Lindley 1956
 */
export function nextTests(likely: Likely, evidence: Evidence, tolerances: Tolerances): NextTest[] {
  const prior = causesOf(likely).map((id) => likely.filter((l) => l.c.fault.id === id).reduce((s, l) => s + l.p, 0));
  return tests
    .filter((t) => !(t.id in evidence.tests))
    .flatMap((test) => {
      let bits = 0;
      const known = eachShown(test, likely, tolerances, (chance, weights, all, k) => {
        bits += chance * Math.log2(weights[k] / all / prior[k]);
      });
      return known ? [{ test, bits }] : [];
    })
    .sort((a, b) => worthOf(b) - worthOf(a));
}
