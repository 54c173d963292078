/** What the ladder of a supply hangs on: its nodes, and what stays of them over a period. */
import { remembering } from "../numerics/remember";

/**
 * Sine and cosine of each step: of the source, and of the ripple's fundamental; each of length `steps`. The same tables for the same steps, so that
 * ladders share them.
 *
 * @source definition
 */
export const tablesOf = remembering(
  (steps: number, fullWave: boolean) => `${steps} ${fullWave}`,
  (steps, fullWave) => {
    const each = (f: (n: number) => number) => Float64Array.from({ length: steps }, (_, n) => f(n + 1));
    const turn = (2 * Math.PI) / steps;
    return {
      source: each((n) => (fullWave ? Math.abs(Math.sin((turn * n) / 2)) : Math.sin(turn * n))),
      cos: each((n) => Math.cos(turn * n)),
      sin: each((n) => Math.sin(turn * n)),
    };
  },
  8,
);
export type Tables = ReturnType<typeof tablesOf>;

/** One node of the ladder: what it hangs on, and its past. */
export interface Rung {
  /** 2C/h, drawn current, and conductance to the chassis with that of the capacitor */
  cap: number;
  draw: number;
  shunt: number;
  /** conductance of the branch before it, 2L/h - R of its choke, and whether it has one */
  branch: number;
  coil: number;
  wound: boolean;
}
/** A node that hangs on nothing yet. Source: derived. */
export const rung = (): Rung => ({ cap: 0, draw: 0, shunt: 0, branch: 0, coil: 0, wound: false });

export type Rungs = readonly [Rung, Rung, Rung];

/**
 * What stays over a period: the share of each node's conductance that passes each branch, all of it as the rectifier sees it, what is drawn as the
 * rectifier sees it, and how a choke's past moves with its volts and with itself.
 *
 * @param rungs the three nodes, SI
 * @returns shares, S, ohm and A
 * @source the network's own equations, trapezoidal rule
 */
export function staysOf([first, second, third]: Rungs) {
  const s2 = third.branch / (third.branch + third.shunt);
  const sum1 = second.shunt + s2 * third.shunt;
  const s1 = second.branch / (second.branch + sum1);
  const sum0 = first.shunt + s1 * sum1;
  const [w1, w2] = [second.wound ? second.branch : 0, third.wound ? third.branch : 0];
  return {
    s1,
    s2,
    s12: s1 * s2,
    r1: s1 / second.branch,
    r2: s2 / third.branch,
    sum0,
    z0: 1 / sum0,
    drawn: first.draw + s1 * second.draw + s1 * s2 * third.draw,
    w1,
    w2,
    u1: w1 * (1 + second.coil * second.branch),
    y1: w1 * second.coil,
    u2: w2 * (1 + third.coil * third.branch),
    y2: w2 * third.coil,
  };
}

/**
 * The past of each capacitor, 2C/h v + i, and of each choke, G (v + (2L/h - R) i), with the amperes of the branches.
 *
 * @param rungs the three nodes, SI
 * @param from volts of the three nodes, mA of the two branches where they are chokes
 * @returns A
 * @source trapezoidal rule
 */
export function pastOf([first, second, third]: Rungs, from: Float64Array) {
  const [v0, v1, v2] = [from[0], from[1], from[2]];
  const i1 = second.wound ? 1e-3 * from[3] : (v0 - v1) * second.branch;
  const i2 = third.wound ? 1e-3 * from[4] : (v1 - v2) * third.branch;
  return {
    i1,
    i2,
    h0: first.cap > 0 ? first.cap * v0 - i1 - first.draw - (first.shunt - first.cap) * v0 : 0,
    h1: second.cap > 0 ? second.cap * v1 + i1 - i2 - second.draw - (second.shunt - second.cap) * v1 : 0,
    h2: third.cap > 0 ? third.cap * v2 + i2 - third.draw - (third.shunt - third.cap) * v2 : 0,
    o1: second.wound ? second.branch * (v0 - v1 + second.coil * i1) : 0,
    o2: third.wound ? third.branch * (v1 - v2 + third.coil * i2) : 0,
  };
}
