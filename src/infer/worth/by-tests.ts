import { type Outcome, type Plan, planOf, type Repair } from "./plan";

/** What is not known of a fault's cause, and what may be done about it: causes are named by their place among the chances. */
export interface Uncertain<M extends string> {
  /** of the causes, one of which it is: they sum to 1 */
  readonly chances: readonly number[];
  /** each cause is mended by one of them at most */
  readonly mends: readonly { readonly id: M; readonly causes: readonly number[]; readonly minutes: number }[];
  readonly tests: readonly { readonly id: string; readonly minutes: number; readonly outcomes: readonly Outcome[] }[];
  /** what it takes where nothing of it helps */
  readonly otherwiseMinutes: number;
}
/** What a test is worth. */
export interface WorthOfTest {
  readonly id: string;
  readonly minutes: number;
  /** of the expected minutes to the mend, its own paid for; under 0 where mending at once is shorter */
  readonly saves: number;
  /** part of the uncertainty about what is to be mended that it is expected to remove, of 1 */
  readonly share: number;
}
export interface WorthOfTests<M extends string> {
  /** to the mend, by the plan */
  readonly minutes: number;
  /** chance of each act to be the one that mends it, the likeliest first; what mends none of the causes is left out */
  readonly mends: readonly { readonly mend: M; readonly chance: number }[];
  /** most worth a minute first */
  readonly tests: readonly WorthOfTest[];
  readonly plan: Plan;
}
/** Less uncertainty than that of one cause at 95 % is as good as none, bit: a part of it counts as so much less. House rule. */
const asGoodAsNone = 0.286;
const entropyOf = (chances: ArrayLike<number>, groups: readonly (readonly number[])[]): number => {
  let sum = 0;
  for (const g of groups) {
    const p = g.reduce((s, k) => s + chances[k], 0);
    if (p > 0) sum -= p * Math.log2(p);
  }
  return sum;
};

/**
 * What each test is worth where one of several causes is at work.
 *
 * @param u causes, mends, tests
 * @returns minutes to the mend, chances of the mends, tests by worth
 * @source Heckerman, Breese and Rommelse 1995 for the plan; shares as expected information, Lindley 1956, about what is to be mended
 */
export function worthOfTests<M extends string>(u: Uncertain<M>): WorthOfTests<M> {
  const { chances, otherwiseMinutes } = u;
  const mends = u.mends.filter((m) => m.causes.length > 0);
  const repairs = mends.map((m): Repair => ({ id: m.id, mends: m.causes, lookMinutes: m.minutes, mendMinutes: 0 }));
  const observations = u.tests.map(({ id, minutes, outcomes }) => ({ id, minutes, outcomes: () => outcomes }));
  const plan = planOf({ chances, repairs, observations, otherwiseMinutes });
  const mended = new Set(mends.flatMap((m) => m.causes));
  const groups = [...mends.map((m) => m.causes), chances.flatMap((_, k) => (mended.has(k) ? [] : [k]))];
  const before = entropyOf(chances, groups);
  const tests = plan.weighed.map(({ observation, saves }): WorthOfTest => {
    const outcomes = observation.outcomes(chances);
    const after = outcomes.reduce((s, o) => s + o.chance * entropyOf(o.chances, groups), 0);
    return {
      id: observation.id,
      minutes: observation.minutes,
      saves,
      share: Math.max(0, Math.min(1, (before - after) / Math.max(before, asGoodAsNone))),
    };
  });
  return {
    minutes: plan.minutes,
    mends: mends.map((m) => ({ mend: m.id, chance: m.causes.reduce((s, k) => s + chances[k], 0) })).sort((a, b) => b.chance - a.chance),
    tests: tests.sort((a, b) => b.share / b.minutes - a.share / a.minutes),
    plan,
  };
}
