import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leastMinutes, minutesOf } from "./exact-plan.testdata";
import { byChanceOverCost, expectedMinutes, type Observation, observationOf, planOf, type Repair, type Trouble } from "./plan";

const never = 1e6;
const minutes = fc.double({ min: 1, max: 60, noNaN: true });
const shares = (count: number) =>
  fc
    .array(fc.double({ min: 0.02, max: 1, noNaN: true }), { minLength: count, maxLength: count })
    .map((w) => w.map((x) => x / w.reduce((s, y) => s + y, 0)));
/** As many causes as repairs, each mended by one. */
const ownRepairs = (count: number): fc.Arbitrary<readonly Repair[]> =>
  fc
    .array(fc.tuple(minutes, minutes), { minLength: count, maxLength: count })
    .map((all) => all.map(([lookMinutes, mendMinutes], k) => ({ id: `r${k}`, mends: [k], lookMinutes, mendMinutes })));
const observations = (count: number): fc.Arbitrary<readonly Observation[]> =>
  fc
    .array(fc.tuple(minutes, fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: count, maxLength: count })), {
      maxLength: 2,
    })
    .map((all) => all.map(([m, yes], k) => observationOf(`o${k}`, m, [yes, yes.map((p) => 1 - p)])));
const troubles = (otherwise: fc.Arbitrary<number>): fc.Arbitrary<Trouble> =>
  fc
    .integer({ min: 2, max: 4 })
    .chain((n) => fc.record({ chances: shares(n), repairs: ownRepairs(n), observations: observations(n), otherwiseMinutes: otherwise }));
const allOrders = <T>(all: readonly T[]): T[][] =>
  all.length === 0 ? [[]] : all.flatMap((x) => allOrders(all.filter((y) => y !== x)).map((rest) => [x, ...rest]));
const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b));

describe("repairs by chance over cost", () => {
  it("are the best of all orders where each cause has one repair", () => {
    fc.assert(
      fc.property(troubles(fc.constant(never)), (t) => {
        const least = Math.min(...allOrders(t.repairs).map((o) => expectedMinutes(t.chances, o, never)));
        const own = byChanceOverCost(t.chances, t.repairs, never);
        expect(own.minutes).toBeCloseTo(least, 6);
        expect(expectedMinutes(t.chances, own.order, never)).toBeCloseTo(own.minutes, 6);
      }),
      { numRuns: 200 },
    );
  });
});

describe("one step looked ahead", () => {
  it("never does better than the best there is, and never worse than repairing at once", () => {
    fc.assert(
      fc.property(troubles(fc.double({ min: 20, max: 500, noNaN: true })), (t) => {
        const [least, own, plan] = [leastMinutes(t), minutesOf(t), planOf(t)];
        expect(own).toBeGreaterThanOrEqual(least - 1e-9);
        expect(own).toBeLessThanOrEqual(plan.minutes + 1e-9);
        expect(plan.minutes).toBeLessThanOrEqual(plan.atOnce.minutes + 1e-9);
      }),
      { numRuns: 200 },
    );
  });
  it("is the best there is in nineteen small cases of twenty, and within half a percent of it on the whole", () => {
    let [all, best, own, least] = [0, 0, 0, 0];
    fc.assert(
      fc.property(troubles(fc.double({ min: 20, max: 500, noNaN: true })), (t) => {
        const [mine, exact] = [minutesOf(t), leastMinutes(t)];
        all++;
        if (near(mine, exact)) best++;
        own += mine;
        least += exact;
      }),
      { numRuns: 500, seed: 7 },
    );
    expect(best / all).toBeGreaterThan(0.95);
    expect(own / least).toBeLessThan(1.005);
  });
  it("makes an observation that tells all where it costs next to nothing, and none that tells nothing", () => {
    fc.assert(
      fc.property(shares(3), ownRepairs(3), (chances, repairs) => {
        const all = observationOf(
          "all",
          1e-6,
          [0, 1, 2].map((k) => [0, 1, 2].map((j) => (j === k ? 1 : 0))),
        );
        const nothing = observationOf("nothing", 1e-6, [
          [0.3, 0.3, 0.3],
          [0.7, 0.7, 0.7],
        ]);
        const { first, weighed, atOnce } = planOf({ chances, repairs, observations: [nothing, all], otherwiseMinutes: never });
        expect(first && "observation" in first && first.observation.id).toBe("all");
        expect(weighed.find((w) => w.observation.id === "nothing")!.saves).toBeCloseTo(-1e-6, 9);
        // knowing which it is saves the looks at all the others
        const known = chances.reduce((s, p, k) => s + p * (repairs[k].lookMinutes + repairs[k].mendMinutes), 0);
        expect(weighed[0].saves).toBeCloseTo(atOnce.minutes - known - 1e-6, 6);
      }),
    );
  });
});
