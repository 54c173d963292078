import { eliminateInPlace } from "../numerics/linear";
import type { Node, Stage } from "./stage-circuit";

/** Grid current starts this much before the grid reaches the cathode, V, and grows so, A/V^1.5. Source: contact potential, common practice. */
const contactV = 0.2;
const gridPerveance = 5e-4;
/** The plate takes its share while it stands some volts above the cathode: 1 - exp(-V/knee). */
const kneeV = 5;

/** Conductance from a node to the chassis, S, by node; none where absent. */
export type Meters = Partial<Readonly<Record<Node, number>>>;
/** The currents into plate, screen, cathode and grid of a stage that it was last loaded with. */
export class NodeEquations {
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

/**
 * Newton's step. The grid's equation has cathode and grid alone, so it goes first; where a pivot is nothing, the general way.
 *
 * @param j derivatives, 4 by 4, row-major, S; overwritten
 * @param f currents left over, A; overwritten
 * @param step volts of plate, screen, cathode and grid, overwritten
 * @source Gaussian elimination
 */
export function takeStep(j: Float64Array, f: Float64Array, step: Float64Array): void {
  const [toGrid, offGrid] = [j[14] / j[15], f[3] / j[15]];
  const [a02, a12, a22] = [j[2] - j[3] * toGrid, j[6] - j[7] * toGrid, j[10] - j[11] * toGrid];
  const [b0, b1, b2] = [f[0] - j[3] * offGrid, f[1] - j[7] * offGrid, f[2] - j[11] * offGrid];
  const [one, two] = [j[4] / j[0], j[8] / j[0]];
  const [c11, c12, d1] = [j[5] - one * j[1], a12 - one * a02, b1 - one * b0];
  const three = (j[9] - two * j[1]) / c11;
  const last = a22 - two * a02 - three * c12;
  const cathode = (b2 - two * b0 - three * d1) / last;
  const screen = (d1 - c12 * cathode) / c11;
  const plate = (b0 - j[1] * screen - a02 * cathode) / j[0];
  const grid = offGrid - toGrid * cathode;
  step[0] = plate;
  step[1] = screen;
  step[2] = cathode;
  step[3] = grid;
  if (Number.isFinite(plate + screen + cathode + grid)) return;
  eliminateInPlace(j, f, 4);
  step.set(f);
}
