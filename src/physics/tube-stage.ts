import type { Node, Stage, TubeLaw, Volts } from "./stage-circuit";
import { type Meters, NodeEquations, takeStep } from "./stage-equations";

export { type Node, nodes, type Stage, type TubeLaw, type Volts } from "./stage-circuit";

/** Vc of a usual triode, V: what brings the law's mu to the manuals' own, which asks for 0.5 to 0.9 V. */
const triodeContactV = 0.5;

/**
 * A tube's law from one operating point of a data book.
 *
 *     X = 1.5 Ik/gmk with gmk = gm Ik/Ib, mu = Vd/(X - Vg - Vc), K = Ik/X^1.5; Vc of a triode alone
 *
 * @param p plate and screen volts, grid volts against cathode (negative), currents in A, transconductance in S
 * @returns the law; it holds near that point, and its cutoff is not a remote-cutoff tube's
 * @source space-charge law (Child, Langmuir); checked against three points of one tube's data
 */
export function lawFrom(p: {
  readonly plateV: number;
  readonly screenV?: number;
  readonly gridV: number;
  readonly plateA: number;
  readonly screenA?: number;
  readonly transconductance: number;
}): TubeLaw {
  const total = p.plateA + (p.screenA ?? 0);
  const x = (1.5 * p.plateA) / p.transconductance;
  const driveV = p.screenV ?? p.plateV;
  const triode = p.screenV === undefined;
  const contactV = triode ? Math.min(triodeContactV, 0.5 * (x - p.gridV)) : 0;
  return {
    kind: triode ? "triode" : "pentode",
    perveance: total / x ** 1.5,
    mu: driveV / (x - p.gridV - contactV),
    plateShare: p.plateA / total,
    contactV,
  };
}

const equations = new NodeEquations();
/** Where a stage is solved: nothing in it lasts from one to the next. */
const room = {
  x: new Float64Array(4),
  tried: new Float64Array(4),
  f: new Float64Array(4),
  j: new Float64Array(16),
  step: new Float64Array(4),
} as const;
const noMeter: Meters = {};

/** Volts of plate, screen, cathode and grid, in that order. */
export type NodeVolts = Float64Array;
/**
 * DC of a stage from volts that are near it, for whoever solves many.
 *
 * @param s the circuit
 * @param x volts to begin from, overwritten with those of the stage; with what they came to where Newton found none
 * @param meter conductance from a node to the chassis, S, by node; none where absent
 * @returns whether Newton found them
 * @source node equations with the laws above; damped Newton
 */
export function settleStage(s: Stage, x: NodeVolts, meter: Meters = noMeter): boolean {
  equations.load(s, meter);
  const { tried, f, j, step } = room;
  let off = equations.off(x, f, j);
  for (let round = 0; round < 120 && off > 1e-7; round++) {
    takeStep(j, f, step);
    let size = 1;
    let next = off;
    for (let cut = 0; cut < 30; cut++) {
      for (let k = 0; k < 4; k++) tried[k] = x[k] - size * step[k];
      next = equations.off(tried, f, j);
      if (next < off) break;
      size /= 2;
    }
    for (let k = 0; k < 4; k++) x[k] = tried[k];
    off = next;
    if (!Number.isFinite(off)) return false;
  }
  return off < 1e-3;
}

/**
 * DC of a stage, with a meter's conductance at its nodes.
 *
 * @param s the circuit
 * @param meter conductance from a node to the chassis, S, by node; none where absent
 * @param start volts to begin from; a usual stage's where absent
 * @returns volts of the nodes to the chassis; undefined where Newton found none
 * @source settleStage
 */
export function solveStage(s: Stage, meter: Meters = noMeter, start?: Volts): Volts | undefined {
  const { x } = room;
  x[0] = start ? start.plate : 0.8 * s.supplyV;
  x[1] = start ? start.screen : (s.tube.kind === "triode" ? 1 : 0.4) * s.supplyV;
  x[2] = start ? start.cathode : 0.005 * s.supplyV;
  x[3] = start ? start.grid : Math.min(0, s.returnV);
  return settleStage(s, x, meter) ? { supply: s.supplyV, plate: x[0], screen: x[1], cathode: x[2], grid: x[3] } : undefined;
}

/**
 * What a meter reads at each node, each measured by itself.
 *
 * @param s the circuit
 * @param meterOf conductance of the meter by the volts that stand there, S
 * @param at nodes that are read
 * @param ideal the circuit without a meter, where it is known
 * @returns volts of those nodes; undefined where the stage has no operating point
 * @source the same equations, with the meter as a shunt
 */
export function readStage(
  s: Stage,
  meterOf: (volts: number, node: Node) => number,
  at: readonly Node[],
  ideal = solveStage(s),
): Partial<Volts> | undefined {
  if (!ideal) return undefined;
  const out: Partial<Record<Node, number>> = {};
  const meter = { supply: 0, plate: 0, screen: 0, cathode: 0, grid: 0 };
  for (const n of at) {
    if (n === "supply") {
      out.supply = s.supplyV;
      continue;
    }
    meter[n] = meterOf(ideal[n], n);
    const v = solveStage(s, meter, ideal) ?? solveStage(s, meter);
    meter[n] = 0;
    if (!v) return undefined;
    out[n] = v[n];
  }
  return out;
}
