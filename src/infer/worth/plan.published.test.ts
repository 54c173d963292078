/**
 * Source of the order: Kadane and Simon 1977, Annals of Statistics 5 (2), 237-255, and Heckerman, Breese and Rommelse 1995, Communications of the ACM 38 (3),
 * 49-57; the papers' own tables were not at hand, so the values below are those of a textbook and of a later paper.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leastMinutes, minutesOf } from "./exact-plan.testdata";
import { byChanceOverCost, expectedMinutes, type Repair } from "./plan";

const never = 1e9;
const repair = (id: string, mends: readonly number[], lookMinutes: number, mendMinutes = 0): Repair => ({
  id,
  mends,
  lookMinutes,
  mendMinutes,
});

describe("a machine with two possible causes of breakdown; source: Ross, A First Course in Probability, problems on expectation", () => {
  // checking the first costs C1 and repairing it R1, the second C2 and R2; read: E1 = C1 + p R1 + (1 - p)(C2 + R2)
  const first = (p: number, c1: number, c2: number, r1: number, r2: number): number =>
    expectedMinutes([p, 1 - p], [repair("1", [0], c1, r1), repair("2", [1], c2, r2)], never);
  it("costs p (C1 + R1) + (1 - p) (C1 + C2 + R2) with the first one checked first", () => {
    for (const [p, c1, c2, r1, r2] of [
      [0.3, 4, 7, 20, 11],
      [0.8, 1, 9, 0, 5],
    ])
      expect(first(p, c1, c2, r1, r2)).toBeCloseTo(p * (c1 + r1) + (1 - p) * (c1 + c2 + r2), 12);
  });
  it("is checked at the first place first if C1 <= p / (1 - p) C2, whatever the repairs cost", () => {
    const any = fc.double({ min: 0.1, max: 50, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.98, noNaN: true }), any, any, any, any, (p, c1, c2, r1, r2) => {
        fc.pre(Math.abs(c1 - (p / (1 - p)) * c2) > 1e-6);
        const { order } = byChanceOverCost([p, 1 - p], [repair("1", [0], c1, r1), repair("2", [1], c2, r2)], never);
        expect(order[0].id).toBe(c1 < (p / (1 - p)) * c2 ? "1" : "2");
      }),
    );
  });
});

describe("three actions that share causes; source: Jensen and others 2001, AI EDAM 15 (4), 321-333, from memory", () => {
  // four causes; each action solves two of them and costs 1
  const chances = [0.2, 0.25, 0.4, 0.15];
  const [a1, a2, a3] = [repair("A1", [0, 1], 1), repair("A2", [1, 2], 1), repair("A3", [2, 3], 1)];
  const trouble = { chances, repairs: [a1, a2, a3], observations: [], otherwiseMinutes: never };
  it("chance over cost takes 1.50, where 1.45 can be had: the order is no longer the best once causes are shared", () => {
    const { order, minutes } = byChanceOverCost(chances, [a1, a2, a3], never);
    expect(order.map((r) => r.id)).toEqual(["A2", "A1", "A3"]);
    expect(minutes).toBeCloseTo(1.5, 12);
    expect(minutesOf(trouble)).toBeCloseTo(1.5, 12);
    expect(expectedMinutes(chances, [a3, a1], never)).toBeCloseTo(1.45, 12);
    expect(leastMinutes(trouble)).toBeCloseTo(1.45, 12);
  });
});
