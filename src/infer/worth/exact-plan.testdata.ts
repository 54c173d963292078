import { type Observation, type Outcome, type Plan, planOf, type Repair, type Trouble } from "./plan";

/** What is left once a repair has not helped: the chances of the other causes, and how likely that is. */
function afterFailing(chances: ArrayLike<number>, r: Repair): Outcome | undefined {
  const joint = Array.from(chances, (p, k) => (r.mends.includes(k) ? 0 : p));
  const chance = joint.reduce((s, p) => s + p, 0);
  return chance > 1e-12 ? { chance, chances: joint.map((p) => p / chance) } : undefined;
}
const without = <T>(all: readonly T[], one: T): T[] => all.filter((x) => x !== one);
type Rest = (t: Trouble) => number;
const repaired = (t: Trouble, r: Repair, rest: Rest): number => {
  const left = afterFailing(t.chances, r);
  const helped = 1 - (left?.chance ?? 0);
  return (
    r.lookMinutes +
    helped * r.mendMinutes +
    (left ? left.chance * rest({ ...t, chances: left.chances, repairs: without(t.repairs, r) }) : 0)
  );
};
const observed = (t: Trouble, o: Observation, rest: Rest): number =>
  o.minutes +
  o.outcomes(t.chances).reduce((s, x) => s + x.chance * rest({ ...t, chances: x.chances, observations: without(t.observations, o) }), 0);

/** Expected minutes of the best that can be done at all: every act tried at every point. For small cases. */
export const leastMinutes = (t: Trouble): number =>
  Math.min(
    t.otherwiseMinutes,
    ...t.repairs.map((r) => repaired(t, r, leastMinutes)),
    ...t.observations.map((o) => observed(t, o, leastMinutes)),
  );

/** Expected minutes of doing what a plan says first, and planning anew after each outcome. */
export function minutesOf(t: Trouble, plan: (t: Trouble) => Plan = planOf): number {
  const { first } = plan(t);
  const rest: Rest = (x) => minutesOf(x, plan);
  if (!first) return t.otherwiseMinutes;
  return "repair" in first ? repaired(t, first.repair, rest) : observed(t, first.observation, rest);
}
