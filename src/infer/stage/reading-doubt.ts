import { contactMoved } from "../../physics/contact-moved";
import { type Node, type NodeVolts, nodes, type Stage, settleStage, solveStage, type TubeLaw, type Volts } from "../../physics/tube-stage";

/** Standard deviations of what the parts and the tube of a healthy stage may be off by, relative. */
export interface Tolerances {
  readonly resistor: number;
  readonly tube: number;
  readonly supply: number;
  /** of the chart that the stage as it should be was taken from, at each node by itself; nothing where it was not */
  readonly chart?: NodeDoubt;
}
/** Relative standard deviations, by node. */
export type NodeDoubt = Partial<Readonly<Record<Node, number>>>;
/** Volts at nodes, read on a meter. */
export interface Readings {
  readonly volts: Partial<Readonly<Record<Node, number>>>;
  /** conductance of the meter at a reading, S, by the volts that stand there */
  readonly meterOf: (volts: number) => number;
  /** of the meter: relative, and V */
  readonly meterShare: number;
  readonly meterFloorV: number;
}
/** What was read: volts, and ohms and other evidence with the power off. */
export interface Evidence extends Readings {
  /** results of the other tests, by id */
  readonly tests: Readonly<Record<string, number>>;
}

/** A grid near its cathode stands where contact potential puts it, which differs from tube to tube, V; common practice, no source. */
const contactDoubtV = 0.15;
/**
 * How far the law may be off with next to no volts at the screen or plate: contact potential and the speed of the electrons drive a current yet, V.
 * Less where the law has a part of it. Common practice, no source.
 */
const lowDriveV = (tube: TubeLaw): number => ((tube.contactV ?? 0) > 0 ? 0.25 : 0.5);
type Mutable<T> = { -readonly [K in keyof T]: T[K] };
/** A stage that is being changed, its tube's law as well. */
type Draft = Mutable<Omit<Stage, "tube">> & { tube: Mutable<TubeLaw> };
/** What varies from set to set: a change of a stage by so much of its own, none to put it back, and what a standard deviation is in steps of it. */
interface Variation {
  readonly by: number;
  readonly step: number;
  readonly put: (into: Draft, s: Stage, step: number) => void;
}
/**
 * Parts, tube and supply of a stage, each by its own relative deviation; and the law where little drives it.
 *
 * @param t tolerances of a sound stage
 * @param healthy the stage as it should be
 * @returns what varies
 * @source common practice, no source
 */
export function variations(t: Tolerances, healthy: Stage): readonly Variation[] {
  const part = (by: number, put: (into: Draft, s: Stage, k: number) => void): Variation => ({
    by,
    step: 0.05,
    put: (into, s, d) => put(into, s, 1 + d),
  });
  const at = solveStage(healthy);
  const driveV = at ? (healthy.tube.kind === "triode" ? at.plate : at.screen) - at.cathode : 0;
  return [
    part(t.resistor, (into, s, k) => {
      into.plateOhm = s.plateOhm * k;
    }),
    part(t.resistor, (into, s, k) => {
      into.screenOhm = s.screenOhm * k;
    }),
    part(t.resistor, (into, s, k) => {
      into.cathodeOhm = s.cathodeOhm * k;
    }),
    part(t.resistor, (into, s, k) => {
      into.gridOhm = s.gridOhm * k;
    }),
    part(t.tube, (into, s, k) => {
      into.tube.perveance = s.tube.perveance * k;
    }),
    part(0.4 * t.tube, (into, s, k) => {
      into.tube.mu = s.tube.mu * k;
    }),
    part(t.supply, (into, s, k) => {
      into.supplyV = s.supplyV * k;
      into.beforeV = s.beforeV * k;
    }),
    // a whole deviation at once: at cutoff the law's own slope is none
    {
      by: 1,
      step: 1,
      put: (into, s, d) => {
        const { mu, contactV = 0 } = contactMoved(s.tube, driveV, d * lowDriveV(s.tube));
        into.tube.mu = mu;
        into.tube.contactV = contactV;
      },
    },
  ];
}

/** What a stage's readings may be off by, and how its volts without a meter move with each variation, to begin another size's from. */
export interface Doubt {
  /** n by n, row-major, V^2: its lower half */
  readonly covariance: readonly number[];
  /** of each variation what one step of it moves at each node, V */
  readonly moves: readonly number[];
}
/** A stage as it should be with a fault of some size, and its volts. */
export interface Solved {
  readonly stage: Stage;
  /** without a meter */
  readonly ideal: Volts;
  /** what a meter shows, V */
  readonly at: Partial<Volts>;
}

/**
 * What a stage's readings may be off by: parts, tube and supply carried through it, and the meter's own error.
 *
 * @param solved the stage and its volts
 * @param read nodes that were read, n of them
 * @param vary what varies, evidence with the meter's own error, and the chart's doubt
 * @param near moves of a stage that is nearly the same, to begin from
 * @returns covariance, and the moves
 * @source JCGM 102:2011 6.2, slopes by differences
 */
export function doubtOf(
  { stage, ideal, at }: Solved,
  read: readonly Node[],
  { vary, evidence, chart }: { readonly vary: readonly Variation[]; readonly evidence: Readings; readonly chart: NodeDoubt },
  near?: readonly number[],
): Doubt {
  const [n, m, all] = [read.length, vary.length, nodes.length];
  const moves: number[] = new Array(m * all).fill(0);
  const room: NodeVolts = new Float64Array(all - 1);
  const changed: Draft = { ...stage, tube: { ...stage.tube } };
  const from = [ideal.plate, ideal.screen, ideal.cathode, ideal.grid] as const;
  for (let v = 0; v < m; v++) {
    vary[v].put(changed, stage, vary[v].step);
    const own = v * all;
    moves[own] = changed.supplyV - ideal.supply;
    if (settlesNear(room, changed, from, near, own)) for (let i = 0; i < from.length; i++) moves[own + i + 1] = room[i] - from[i];
    vary[v].put(changed, stage, 0);
  }
  const places = read.map((node) => nodes.indexOf(node));
  const covariance: number[] = new Array(n * n).fill(0);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let v = 0; v < m; v++) {
        const times = vary[v].by / vary[v].step;
        sum += times * times * moves[v * all + places[i]] * moves[v * all + places[j]];
      }
      covariance[i * n + j] = sum;
    }
    const node = read[i];
    const own = (evidence.meterShare ** 2 + (chart[node] ?? 0) ** 2) * (at[node] ?? 0) ** 2 + evidence.meterFloorV ** 2;
    covariance[i * (n + 1)] += own + (node === "grid" ? contactDoubtV ** 2 : 0);
  }
  return { covariance, moves };
}
/** Solves a varied stage: from where the variation moved the like one, else from its own volts, else from a usual stage's. */
function settlesNear(
  room: NodeVolts,
  changed: Stage,
  from: readonly number[],
  ...[near, own]: [readonly number[] | undefined, number]
): boolean {
  for (let i = 0; i < room.length; i++) room[i] = from[i] + (near ? near[own + i + 1] : 0);
  if (settleStage(changed, room)) return true;
  room.set(from);
  if (near && settleStage(changed, room)) return true;
  const usual = solveStage(changed);
  if (usual) room.set([usual.plate, usual.screen, usual.cathode, usual.grid]);
  return usual !== undefined;
}
