import { logScale, type Test, tests } from "./tests";
import type { Case, Evidence, Tolerances } from "./weigh-faults";

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

/** Bits by how easy the test is, to a millionth: tests that tell the same stay in the order of their list. */
const worthOf = ({ bits, test }: NextTest): number => Math.round(1e6 * bits * test.ease);
interface Foretold {
  readonly at: number;
  /** place of the cause among the ids */
  readonly k: number;
  p: number;
}
/** What a test would find by each cause, on its own scale, sizes that foretell the same taken together; nothing where one foretells nothing. */
function foretold(test: Test, likely: readonly { readonly c: Case; readonly p: number }[], ids: readonly string[]): Foretold[] | undefined {
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

/**
 * Which test tells most about which cause it is.
 *
 * @param likely cases and their chances
 * @param evidence what was read, and the tests that were made
 * @param tolerances of a sound stage
 * @returns tests not made yet, the best first
 * @source expected information, Lindley 1956
 */
export function nextTests(
  likely: readonly { readonly c: Case; readonly p: number }[],
  evidence: Evidence,
  tolerances: Tolerances,
): NextTest[] {
  const ids = [...new Set(likely.map((l) => l.c.fault.id))];
  const prior = ids.map((id) => likely.filter((l) => l.c.fault.id === id).reduce((s, l) => s + l.p, 0));
  const out: NextTest[] = [];
  for (const test of tests) {
    if (test.id in evidence.tests) continue;
    const sd = Math.hypot(test.error, test.toScale === logScale ? tolerances.resistor : 0);
    const known = foretold(test, likely, ids);
    if (!known) continue;
    let bits = 0;
    for (const x of known)
      for (const [z, w] of hermite) {
        const y = x.at + z * sd;
        let all = 0;
        let mine = 0;
        for (const o of known) {
          const d = (y - o.at) / sd;
          const n = o.p * Math.exp(-0.5 * d * d);
          all += n;
          if (o.k === x.k) mine += n;
        }
        bits += x.p * w * Math.log2(mine / all / prior[x.k]);
      }
    out.push({ test, bits });
  }
  return out.sort((a, b) => worthOf(b) - worthOf(a));
}
