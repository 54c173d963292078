import { contactMoved } from "../../physics/contact-moved";
import { type Node, nodes, type Stage, solveStage, type TubeLaw, type Volts } from "../../physics/tube-stage";

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
/** What was read: volts at nodes on a meter; ohms and other evidence with the power off. */
export interface Evidence {
  readonly volts: Partial<Readonly<Record<Node, number>>>;
  /** conductance of the meter at a reading, S, by the volts that stand there */
  readonly meterOf: (volts: number) => number;
  /** of the meter: relative, and V */
  readonly meterShare: number;
  readonly meterFloorV: number;
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
/** A stage that is being changed. */
type Draft = { -readonly [K in keyof Stage]: Stage[K] };
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
      into.tube = { ...s.tube, perveance: s.tube.perveance * k };
    }),
    part(0.4 * t.tube, (into, s, k) => {
      into.tube = { ...s.tube, mu: s.tube.mu * k };
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
        into.tube = contactMoved(s.tube, driveV, d * lowDriveV(s.tube));
      },
    },
  ];
}

const numbersOf = (v: Volts): readonly number[] => [v.supply, v.plate, v.screen, v.cathode, v.grid];
/**
 * What a stage's readings may be off by: parts, tube and supply carried through it, and the meter's own error.
 *
 * @param stage the stage
 * @param ideal its volts without a meter
 * @param at what a meter shows, V
 * @param read nodes that were read, n of them
 * @returns covariance, n by n, row-major, V^2: its lower half
 * @source JCGM 102:2011 6.2, slopes by differences
 */
export function doubtOf(
  stage: Stage,
  ideal: Volts,
  at: Partial<Volts>,
  read: readonly Node[],
  ...[vary, evidence, chart]: [readonly Variation[], Evidence, NodeDoubt]
): Float64Array {
  const [n, m] = [read.length, vary.length];
  const places = read.map((node) => nodes.indexOf(node));
  const from = numbersOf(ideal);
  // of each variation what it moves at each node that was read
  const moved = new Float64Array(m * n);
  const changed: Draft = { ...stage };
  for (let v = 0; v < m; v++) {
    const { by, step, put } = vary[v];
    put(changed, stage, step);
    const to = numbersOf(solveStage(changed, {}, ideal) ?? solveStage(changed) ?? { ...ideal, supply: changed.supplyV });
    for (let i = 0; i < n; i++) moved[v * n + i] = ((to[places[i]] - from[places[i]]) / step) * by;
    put(changed, stage, 0);
  }
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0;
      for (let v = 0; v < m; v++) sum += moved[v * n + i] * moved[v * n + j];
      covariance[i * n + j] = sum;
    }
    const node = read[i];
    const own = (evidence.meterShare ** 2 + (chart[node] ?? 0) ** 2) * (at[node] ?? 0) ** 2 + evidence.meterFloorV ** 2;
    covariance[i * (n + 1)] += own + (node === "grid" ? contactDoubtV ** 2 : 0);
  }
  return covariance;
}
