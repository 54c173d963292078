import { eliminateInPlace } from "../numerics/linear";

/** A tube by its current law near one data-book point: Ik = K (Vgk + Vc + Vdk/mu)^1.5, with the screen driving a pentode and the plate a triode. */
export interface TubeLaw {
  readonly kind: "pentode" | "triode";
  /** A/V^1.5 */
  readonly perveance: number;
  readonly mu: number;
  /** part of the cathode current that the plate takes while its volts are well up; 1 in a triode */
  readonly plateShare: number;
  /** power of the law, 1.5 where not said; and volts over which it leaves cutoff gradually, 0 where not said */
  readonly exponent?: number;
  readonly softV?: number;
  /** Vc, volts that drive a current with grid and screen at the cathode: contact potential and the speed that electrons leave with; 0 where not said */
  readonly contactV?: number;
}

/** A stage's DC circuit. SI; conductances of 0 for what is not there. */
export interface Stage {
  readonly tube: TubeLaw;
  readonly supplyV: number;
  readonly plateOhm: number;
  /** part of it that feeds a decoupling capacitor, before the load; nothing where there is none */
  readonly feedOhm?: number;
  /** part of the supply's volts that a leak of that capacitor leaves behind the feed with nothing drawn; all of it where not said */
  readonly decoupledPart?: number;
  readonly screenOhm: number;
  readonly cathodeOhm: number;
  readonly gridOhm: number;
  /** volts of the line that the grid returns to: AVC, bias, or 0 */
  readonly returnV: number;
  /** leaks to the chassis at screen and cathode, S */
  readonly screenLeak: number;
  readonly cathodeLeak: number;
  /** leak from the plate of the stage before to the grid, S, and that plate's volts */
  readonly couplingLeak: number;
  readonly beforeV: number;
  /** out of the grid, of gas or grid emission, A */
  readonly gridCurrentA?: number;
}
export const nodes = ["supply", "plate", "screen", "cathode", "grid"] as const;
export type Node = (typeof nodes)[number];
export type Volts = Readonly<Record<Node, number>>;

/** Vc of a usual triode, V: what brings the law's mu to the manuals' own, which asks for 0.5 to 0.9 V. */
const triodeContactV = 0.5;
/** Grid current starts this much before the grid reaches the cathode, V, and grows so, A/V^1.5. Source: contact potential, common practice. */
const contactV = 0.2;
const gridPerveance = 5e-4;
/** The plate takes its share while it stands some volts above the cathode: 1 - exp(-V/knee). */
const kneeV = 5;

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

type Meters = Partial<Readonly<Record<Node, number>>>;
/** The currents into plate, screen, cathode and grid of a stage that it was last loaded with. */
class NodeEquations {
  private triode = false;
  private perveance = 0;
  private mu = 1;
  private share = 1;
  private exponent = 1.5;
  private softV = 0;
  private ownV = 0;
  private supplyV = 0;
  private plateFeedS = 0;
  private plateSupplyV = 0;
  private plateS = 0;
  private screenFeedS = 0;
  private screenS = 0;
  private cathodeS = 0;
  private gridS = 0;
  private intoGridA = 0;

  load(s: Stage, meter: Meters): void {
    const { tube } = s;
    this.triode = tube.kind === "triode";
    this.perveance = tube.perveance;
    this.mu = tube.mu;
    this.share = tube.plateShare;
    this.exponent = tube.exponent ?? 1.5;
    this.softV = tube.softV ?? 0;
    this.ownV = tube.contactV ?? 0;
    this.supplyV = s.supplyV;
    // Thevenin: a leak behind the feed divides the supply, and stands beside the feed
    const part = s.decoupledPart ?? 1;
    this.plateSupplyV = s.supplyV * part;
    this.plateFeedS = 1 / (s.plateOhm - (s.feedOhm ?? 0) * (1 - part));
    this.plateS = this.plateFeedS + (meter.plate ?? 0);
    this.screenFeedS = this.triode ? 1 : 1 / s.screenOhm;
    this.screenS = this.triode ? 1 : this.screenFeedS + s.screenLeak + (meter.screen ?? 0);
    this.cathodeS = 1 / s.cathodeOhm + s.cathodeLeak + (meter.cathode ?? 0);
    this.gridS = 1 / s.gridOhm + s.couplingLeak + (meter.grid ?? 0);
    this.intoGridA = s.returnV / s.gridOhm + s.couplingLeak * s.beforeV + (s.gridCurrentA ?? 0);
  }

  /** Currents left over at each node, A, and their derivatives by the nodes' volts, S; gives how many volts they are off. */
  off(v: Float64Array, f: Float64Array, j: Float64Array): number {
    const { triode, perveance, mu, share, exponent, softV, ownV, plateS, screenS, cathodeS, gridS } = this;
    const p = v[0];
    const d = v[1];
    const k = v[2];
    const g = v[3];
    const drive = g - k + ownV + ((triode ? p : d) - k) / mu;
    const bent = softV > 0 ? Math.exp(Math.min(drive / softV, 500)) : 0;
    const soft = softV > 0 ? softV * Math.log1p(bent) : Math.max(drive, 0);
    const root = exponent === 1.5 ? Math.sqrt(soft) : soft ** (exponent - 1);
    const total = perveance * soft * root;
    const slope = exponent * perveance * root * (softV > 0 ? bent / (1 + bent) : 1);
    const pk = p - k;
    // a plate below its cathode takes nothing; the trace of a slope is for Newton's sake
    const below = triode || pk <= 0 ? 1 : Math.exp(-pk / kneeV);
    const knee = triode ? 1 : pk > 0 ? 1 - below : 1e-6 * pk;
    const kneeSlope = triode ? 0 : pk > 0 ? below / kneeV : 1e-6;
    const over = Math.max(g - k + contactV, 0);
    const gridA = gridPerveance * over * Math.sqrt(over);
    const gridSlope = 1.5 * gridPerveance * Math.sqrt(over);
    const plateA = total * share * knee;
    f[0] = this.plateSupplyV * this.plateFeedS - plateS * p - plateA;
    f[1] = this.supplyV * this.screenFeedS - screenS * d - (triode ? 0 : total - plateA);
    f[2] = (triode ? plateA : total) + gridA - cathodeS * k;
    f[3] = this.intoGridA - gridS * g - gridA;
    // derivatives of the whole current by plate, screen and cathode (by the grid it is the slope), then those of the plate's own
    const dp = triode ? slope / mu : 0;
    const dd = triode ? 0 : slope / mu;
    const dk = -slope * (1 + 1 / mu);
    const own = share * knee;
    const bend = total * share * kneeSlope;
    j[0] = -(dp * own + bend) - plateS;
    j[1] = -dd * own;
    j[2] = bend - dk * own;
    j[3] = -slope * own;
    j[4] = triode ? 0 : -(dp + j[0] + plateS);
    j[5] = (triode ? 0 : -(dd + j[1])) - screenS;
    j[6] = triode ? 0 : -(dk + j[2]);
    j[7] = triode ? 0 : -(slope + j[3]);
    j[8] = triode ? -(j[0] + plateS) : dp;
    j[9] = triode ? -j[1] : dd;
    j[10] = (triode ? -j[2] : dk) - gridSlope - cathodeS;
    j[11] = (triode ? -j[3] : slope) + gridSlope;
    j[12] = 0;
    j[13] = 0;
    j[14] = gridSlope;
    j[15] = -gridS - gridSlope;
    // each equation by the conductance of its own node: volts that it is off
    const upper = Math.max(Math.abs(f[0]) / (plateS + 1e-9), Math.abs(f[1]) / (triode ? 1 : screenS + 1e-9));
    return Math.max(upper, Math.abs(f[2]) / (cathodeS + 1e-9), Math.abs(f[3]) / (gridS + 1e-9));
  }
}
const equations = new NodeEquations();
/** Where a stage is solved: nothing in it lasts from one to the next. */
const room = { x: new Float64Array(4), tried: new Float64Array(4), f: new Float64Array(4), j: new Float64Array(16) } as const;

/**
 * DC of a stage, with a meter's conductance at its nodes.
 *
 * @param s the circuit
 * @param meter conductance from a node to the chassis, S, by node; none where absent
 * @param start volts to begin from; a usual stage's where absent
 * @returns volts of the nodes to the chassis; undefined where Newton found none
 * @source node equations with the laws above; damped Newton
 */
export function solveStage(s: Stage, meter: Meters = {}, start?: Volts): Volts | undefined {
  equations.load(s, meter);
  const { x, tried, f, j } = room;
  x[0] = start ? start.plate : 0.8 * s.supplyV;
  x[1] = start ? start.screen : (s.tube.kind === "triode" ? 1 : 0.4) * s.supplyV;
  x[2] = start ? start.cathode : 0.005 * s.supplyV;
  x[3] = start ? start.grid : Math.min(0, s.returnV);
  let off = equations.off(x, f, j);
  for (let round = 0; round < 120 && off > 1e-7; round++) {
    eliminateInPlace(j, f, 4);
    const [plate, screen, cathode, grid] = f;
    let size = 1;
    let next = off;
    for (let cut = 0; cut < 30; cut++) {
      tried[0] = x[0] - size * plate;
      tried[1] = x[1] - size * screen;
      tried[2] = x[2] - size * cathode;
      tried[3] = x[3] - size * grid;
      next = equations.off(tried, f, j);
      if (next < off) break;
      size /= 2;
    }
    for (let k = 0; k < 4; k++) x[k] = tried[k];
    off = next;
    if (!Number.isFinite(off)) return undefined;
  }
  return off < 1e-3 ? { supply: s.supplyV, plate: x[0], screen: x[1], cathode: x[2], grid: x[3] } : undefined;
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
  for (const n of at) {
    if (n === "supply") {
      out.supply = s.supplyV;
      continue;
    }
    const v = solveStage(s, { [n]: meterOf(ideal[n], n) }, ideal) ?? solveStage(s, { [n]: meterOf(ideal[n], n) });
    if (!v) return undefined;
    out[n] = v[n];
  }
  return out;
}
