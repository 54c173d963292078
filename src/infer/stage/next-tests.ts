import { eachOutcome, type Foretold, type Shown, type Take } from "../outcomes";
import type { Evidence, Tolerances } from "./reading-doubt";
import { errorOf, type Test, tests } from "./tests";
import type { Case } from "./weigh-faults";

export interface NextTest {
  readonly test: Test;
  /** expected information on which cause it is, bits */
  readonly bits: number;
}

/** Bits by how easy the test is, to a millionth: tests that tell the same stay in the order of their list. */
const worthOf = ({ bits, test }: NextTest): number => Math.round(1e6 * bits * test.ease);
/** Cases that are likely enough to count, with their chances. */
export type Likely = readonly { readonly c: Case; readonly p: number }[];
type Gathered = { readonly at: number; readonly k: number; p: number };
/** What a test would find by each cause, on its own scale, sizes that foretell the same taken together; nothing where one foretells nothing. */
function foretold(test: Test, likely: Likely, ids: readonly string[]): Foretold[] | undefined {
  const out: Gathered[] = [];
  const byCause = ids.map(() => new Map<number, Gathered>());
  for (const { c, p } of likely) {
    const v = c.foretold(test);
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
 * @source outcomes.ts
 */
export function foresee(test: Test, likely: Likely, tolerances: Tolerances): readonly Shown[] | undefined {
  const shown: Shown[] = [];
  const known = eachShown(test, likely, tolerances, (chance, weights, all, k) =>
    shown.push({ chance, chances: weights.map((w) => w / all), k }),
  );
  return known ? shown : undefined;
}
/** Takes up what a test may show, one after the other. False where a case foretells nothing. */
function eachShown(test: Test, likely: Likely, tolerances: Tolerances, take: Take): boolean {
  const ids = causesOf(likely);
  const known = foretold(test, likely, ids);
  if (known) eachOutcome(known, errorOf(test, tolerances), ids.length, take);
  return known !== undefined;
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
