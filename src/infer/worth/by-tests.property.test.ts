import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { normalStream, uniformStream } from "../../numerics/random";
import { outcomesOf } from "../outcomes";
import { worthOfTests } from "./by-tests";

/** Small cases: up to four causes, each foretelling one reading, or two of even chance. */
const cause = fc.record({
  weight: fc.double({ min: 0.05, max: 1, noNaN: true }),
  reads: fc.array(fc.double({ min: 0, max: 6, noNaN: true }), { minLength: 1, maxLength: 2 }),
});
const causes = fc.array(cause, { minLength: 2, maxLength: 4 });
const foretold = (all: readonly { readonly weight: number; readonly reads: readonly number[] }[]) => {
  const whole = all.reduce((s, c) => s + c.weight, 0);
  return all.flatMap((c, k) => c.reads.map((at) => ({ at, k, p: c.weight / whole / c.reads.length })));
};
const sd = 0.5;
const chancesOf = (known: ReturnType<typeof foretold>, count: number): number[] =>
  Array.from({ length: count }, (_, k) => known.reduce((s, x) => s + (x.k === k ? x.p : 0), 0));
const entropy = (p: readonly number[]): number => -p.reduce((s, v) => s + (v > 0 ? v * Math.log2(v) : 0), 0);
const each = (chances: readonly number[]) => chances.map((_, k) => ({ id: `m${k}`, causes: [k], minutes: 30 }));

describe("what a test removes of the uncertainty about a cause", () => {
  it("is what brute force finds: causes and readings drawn, each reading judged by Bayes' rule", () => {
    const n = 4000;
    const [pick, which, error] = [uniformStream(3, "pick", n), uniformStream(3, "which", n), normalStream(3, "error", n)];
    fc.assert(
      fc.property(causes, (all) => {
        const known = foretold(all);
        const chances = chancesOf(known, all.length);
        const { tests } = worthOfTests({
          chances,
          mends: each(chances),
          tests: [{ id: "t", minutes: 5, outcomes: outcomesOf(known, sd, all.length) }],
          otherwiseMinutes: 100,
        });
        let left = 0;
        for (let i = 0; i < n; i++) {
          let k = 0;
          for (let sum = chances[0]; sum < pick[i] && k < all.length - 1; sum += chances[k]) k++;
          const y = all[k].reads[Math.floor(which[i] * all[k].reads.length)] + sd * error[i];
          const post = Array.from(chances, () => 0);
          for (const x of known) post[x.k] += x.p * Math.exp(-0.5 * ((y - x.at) / sd) ** 2);
          const whole = post.reduce((a, b) => a + b, 0);
          left += entropy(post.map((p) => p / whole)) / n;
        }
        const share = (entropy(chances) - left) / Math.max(entropy(chances), 0.286);
        // 4000 draws of bits that scatter by one at most tell the share to some hundredths; seven nodes of the error the rest
        expect(Math.abs(tests[0].share - share), `${tests[0].share} and ${share}`).toBeLessThan(0.06);
      }),
      { numRuns: 40 },
    );
  });
  it("is all of it where the readings lie far apart, none where all foretell the same, and none where one act mends all", () => {
    const apart = [0, 50, 100].map((at, k) => ({ at, k, p: 1 / 3 }));
    const alike = apart.map((x) => ({ ...x, at: 0 }));
    const chances = [1 / 3, 1 / 3, 1 / 3];
    const shareOf = (
      known: typeof apart,
      mends: readonly { readonly id: string; readonly causes: readonly number[]; readonly minutes: number }[],
    ) =>
      worthOfTests({ chances, mends, tests: [{ id: "t", minutes: 5, outcomes: outcomesOf(known, sd, 3) }], otherwiseMinutes: 100 }).tests[0]
        .share;
    expect(shareOf(apart, each(chances))).toBeCloseTo(1, 9);
    expect(shareOf(alike, each(chances))).toBeCloseTo(0, 9);
    // what is as good as known is not worth a test
    const nearly = [0.998, 0.001, 0.001];
    const known = apart.map((x, k) => ({ ...x, p: nearly[k] }));
    const tests = [{ id: "t", minutes: 5, outcomes: outcomesOf(known, sd, 3) }];
    expect(worthOfTests({ chances: nearly, mends: each(nearly), tests, otherwiseMinutes: 100 }).tests[0].share).toBeLessThan(0.1);
    expect(shareOf(apart, [{ id: "one", causes: [0, 1, 2], minutes: 30 }])).toBe(0);
  });
});
