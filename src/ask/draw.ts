import { normalStream } from "../numerics/random";
import type { Bench } from "../set/bench";
import { drawEstimate, drawQuantity, type Estimate, type Sampling } from "../units/draws";
import { isUncertain } from "./resolve";
import type { Resolved, ResolvedQuantity } from "./resolved";

/** Inputs whose part of a result's variance is counted together: one by itself, or those that a fit gave at once. */
export interface Group {
  readonly names: readonly string[];
  readonly streams: readonly Float64Array[];
}
/** Draws of all uncertain inputs of an answer. */
export interface Drawn {
  readonly groups: readonly Group[];
  /** whether any input varies */
  readonly varies: boolean;
  /** writes draw `i` into the plain inputs; the best values where `i` is under 0 */
  readonly put: (i: number) => void;
  /** draws of one plain input by its name, where it is a number that varies */
  readonly of: (name: string) => Float64Array | undefined;
}

/** The estimate that quantities belong to: learnt for this answer, or kept by the job. */
export const estimateOf = (inputs: Pick<Resolved, "learnt">, bench: Bench, id: string): Estimate | undefined =>
  inputs.learnt?.id === id ? inputs.learnt : bench.estimate(id);

/**
 * Draws every uncertain input: each from its own stream, those of one estimate together.
 *
 * @param inputs the question's inputs; what is put goes into the plain ones that they share
 * @param bench where the estimates are
 * @param sampling seed and number of draws
 * @returns the draws, and the groups that shares are counted by
 * @source JCGM 101:2008 clause 6
 */
export function drawInputs(inputs: Resolved, bench: Bench, sampling: Sampling): Drawn {
  const drawn: { readonly quantity: ResolvedQuantity; readonly values: Float64Array }[] = [];
  const groups: Group[] = [];
  const joints = new Map<string, ResolvedQuantity[]>();
  for (const q of inputs.quantities) {
    if (!isUncertain(q)) continue;
    const joint = q.quantity.joint;
    if (joint) {
      joints.set(joint, [...(joints.get(joint) ?? []), q]);
      continue;
    }
    const values = drawQuantity(q.quantity, q.path, sampling, q.positive);
    drawn.push({ quantity: q, values });
    groups.push({ names: [q.path], streams: [values] });
  }
  for (const [id, members] of joints) {
    const estimate = estimateOf(inputs, bench, id);
    if (!estimate) continue;
    const { byName } = drawEstimate(estimate, sampling);
    for (const q of members)
      drawn.push({ quantity: q, values: byName.get(q.path) ?? new Float64Array(sampling.draws).fill(q.quantity.value) });
    const names = estimate.names.filter((n) => members.some((m) => m.path === n));
    groups.push({ names, streams: names.map((n) => normalStream(sampling.seed, n, sampling.draws)) });
  }
  const put = (i: number): void => {
    for (const { quantity, values } of drawn) {
      const { holder, key } = quantity.slot;
      holder[key] = i < 0 ? quantity.quantity.value : values[i];
    }
  };
  const plain = new Map(drawn.flatMap(({ quantity: { slot }, values }) => (slot.holder === inputs.plain ? [[slot.key, values]] : [])));
  return { groups, varies: drawn.length > 0, put, of: (name) => plain.get(name) };
}
