import { inSums, type LadderNow, wideLadder } from "./supply-ladder-wide";
import { at, inSection, section } from "./supply-numbers";
import { pastOf, rung, staysOf, type Tables, tablesOf } from "./supply-rungs";
import { tangentAt } from "./tube-load";

export interface SupplySolved {
  /** DC at each node, V */
  readonly volts: readonly number[];
  /** ripple at each node, V peak to peak */
  readonly ripplePp: readonly number[];
  /** rms of the ripple's fundamental at each node, V */
  readonly rippleRms: readonly number[];
  /** through one plate: peak, rms and mean, A; a plate of a full-wave rectifier conducts every other pulse */
  readonly peakA: number;
  readonly plateRmsA: number;
  readonly plateMeanA: number;
  /** highest volts at the first node */
  readonly firstPeakV: number;
}

/** Nodes of the ladder; one that is not there hangs on nothing. */
const nodeCount = 3;
/** Places of a state: volts of the three nodes, then milliamperes of the two chokes, so that all of them count alike. */
export const stateSize = 5;

/**
 * The root s above 0 of cubic s^3 + square s^2 = right: the root of a vacuum diode's drop, whose current is its cube.
 *
 * @source Halley, whose step leaves a quarter to two thirds of its cube, as shares of the root (derived)
 */
function rootOfDrop(cubic: number, square: number, right: number, start: number): number {
  let s = start > 0 ? start : Math.sqrt(right / square);
  for (let n = 0; n < 60; n++) {
    const off = s * s * (cubic * s + square) - right;
    const slope = s * (3 * cubic * s + 2 * square);
    const step = (off * slope) / (slope * slope - off * (3 * cubic * s + square));
    s = step < s ? s - step : s / 8;
    if (Math.abs(step) < 1e-4 * s) break;
  }
  return s;
}

/**
 * The ladder over one period by the trapezoidal rule. Each capacitor and choke stands as a conductance with a source of its past, so a step is one
 * pass down the ladder, one scalar equation at the rectifier, and one pass back.
 */
export class Ladder implements LadderNow {
  readonly rungs = [rung(), rung(), rung()] as const;
  readonly source = { crest: 0, ohm: 0, perveance: 0, drop: 0 };
  readonly roots: Float64Array;
  tables: Tables;
  private readonly wide: ReturnType<typeof wideLadder>;
  private readonly wave: Float64Array;
  private readonly onA: Float64Array;
  private readonly ran = new Float64Array(stateSize);
  private readonly sums = new Float64Array(inSums.count);
  private fullWave = true;
  private p: Float64Array = new Float64Array(0);

  /** @param steps of a period; @param plain true to go without WebAssembly */
  constructor(
    readonly steps: number,
    plain = false,
  ) {
    this.wide = plain ? undefined : wideLadder(steps);
    this.wave = new Float64Array(this.wide ? 0 : nodeCount * steps);
    this.onA = new Float64Array(this.wide ? 0 : steps);
    this.roots = new Float64Array(steps);
    this.tables = tablesOf(steps, true);
  }

  /** Takes a supply in by its numbers, which are kept and not copied. */
  load(p: Float64Array, fullWave: boolean): void {
    if (fullWave !== this.fullWave) this.tables = tablesOf(this.steps, fullWave);
    this.fullWave = fullWave;
    this.p = p;
    this.source.crest = Math.SQRT2 * p[at.plateV];
    this.source.ohm = p[at.sourceOhm];
    this.source.perveance = p[at.perveance];
    this.source.drop = p[at.drop];
    const perStep = 2 * p[at.lineHz] * (fullWave ? 2 : 1) * this.steps;
    const first = this.rungs[0];
    first.cap = p[at.farad] * perStep;
    first.draw = p[at.ampere];
    first.shunt = first.cap + p[at.siemens];
    for (const k of [0, 1] as const) {
      const x = this.rungs[k + 1];
      const own = section(k);
      const henry = p[own + inSection.henry];
      x.cap = p[own + inSection.farad] * perStep;
      x.draw = p[own + inSection.ampere];
      x.shunt = x.cap + p[own + inSection.siemens];
      x.branch = 1 / (p[own + inSection.ohm] + henry * perStep);
      x.coil = henry * perStep - p[own + inSection.ohm];
      x.wound = henry > 0;
    }
  }

  /** Sets what the tubes draw to the tangents of their laws at a state's volts. */
  tune(x: Float64Array): void {
    for (let k = 0; k < 2; k++) {
      const own = section(k as 0 | 1);
      const tubeA = this.p[own + inSection.tubeA];
      if (!(tubeA > 0)) continue;
      const load = { ampere: tubeA, atV: this.p[own + inSection.atV], exponent: this.p[own + inSection.exponent] };
      const { ampere, siemens } = tangentAt(load, Math.max(1e-3, x[k + 1]));
      const here = this.rungs[k + 1];
      here.draw = this.p[own + inSection.ampere] + ampere;
      here.shunt = here.cap + this.p[own + inSection.siemens] + siemens;
    }
  }

  /** Runs one period from a state, and writes the state at its end. The period begins where the source crosses zero: nothing conducts. */
  run(from: Float64Array, to: Float64Array): void {
    if (!this.wide) {
      this.runPlain(from, to);
      return;
    }
    this.ran.set(from);
    this.wide.run(this, from, to);
  }

  private runPlain(from: Float64Array, to: Float64Array): void {
    const { steps, wave, onA } = this;
    const { source } = this.tables;
    const { crest, ohm, perveance, drop } = this.source;
    const [{ cap: c0 }, { cap: c1, draw: d1, branch: b1 }, { cap: c2, draw: d2, branch: b2 }] = this.rungs;
    const { s1, s2, s12, r1, r2, sum0, z0, drawn, u1, y1, u2, y2 } = staysOf(this.rungs);
    const series = 1 + sum0 * ohm;
    const cubic = perveance * series;
    let [v0, v1, v2] = [from[0], from[1], from[2]];
    let { i1, i2, h0, h1, h2, o1, o2 } = pastOf(this.rungs, from);
    let [root, before] = [0, 0];
    for (let n = 0; n < steps; n++) {
      // current that each node gets from the past and from all behind it, less what is drawn; a step waits for little of the one before
      const past2 = h2 - d2 + o2;
      const past1 = h1 - d1 + o1 + (s2 * past2 - o2);
      const rest = h0 - drawn + s1 * h1 + (s12 * h2 + (s1 - 1) * o1) + (s12 - s1) * o2;
      const e = crest * source[n];
      const over = sum0 * (e - drop) - rest;
      let i = 0;
      if (over <= 0) {
        v0 = rest * z0;
        [root, before] = [0, 0];
      } else if (perveance > 0) {
        const s = rootOfDrop(cubic, sum0, over, before > 0 ? 2 * root - before : root);
        before = root;
        root = s;
        i = perveance * s * s * s;
        v0 = e - i * ohm - s * s;
      } else {
        i = over / series;
        v0 = e - i * ohm - drop;
      }
      v1 = s1 * v0 + r1 * past1;
      v2 = s12 * v0 + (s2 * r1 * past1 + r2 * past2);
      h0 = 2 * c0 * v0 - h0;
      h1 = 2 * c1 * v1 - h1;
      h2 = 2 * c2 * v2 - h2;
      i1 = b1 * (v0 - v1) + o1;
      i2 = b2 * (v1 - v2) + o2;
      o1 = u1 * (v0 - v1) + y1 * o1;
      o2 = u2 * (v1 - v2) + y2 * o2;
      wave[n] = v0;
      wave[steps + n] = v1;
      wave[2 * steps + n] = v2;
      onA[n] = i;
    }
    to[0] = v0;
    to[1] = v1;
    to[2] = v2;
    to[3] = 1e3 * i1;
    to[4] = 1e3 * i2;
  }

  /** What the last period was like, at so many of its nodes. */
  solved(count: number): SupplySolved {
    const { steps, sums } = this;
    this.takeSums(count);
    const plates = this.fullWave ? 2 : 1;
    const volts: number[] = [];
    const ripplePp: number[] = [];
    const rippleRms: number[] = [];
    for (let at = 0; at < count * inSums.each; at += inSums.each) {
      volts.push(sums[at] / steps);
      ripplePp.push(sums[at + inSums.high] - sums[at + inSums.low]);
      rippleRms.push((Math.SQRT2 * Math.sqrt(sums[at + inSums.re] ** 2 + sums[at + inSums.im] ** 2)) / steps);
    }
    return {
      volts,
      ripplePp,
      rippleRms,
      peakA: sums[inSums.peak],
      plateRmsA: Math.sqrt(sums[inSums.squares] / steps / plates),
      plateMeanA: sums[inSums.ampere] / steps / plates,
      firstPeakV: sums[inSums.high],
    };
  }

  private takeSums(count: number): void {
    const { wide, sums } = this;
    if (wide?.sums(this, sums)) return;
    // another ladder ran since: once more from the same start
    if (wide) {
      wide.run(this, this.ran, new Float64Array(stateSize));
      wide.sums(this, sums);
      return;
    }
    for (let k = 0; k < count; k++) sumsOf(this.wave, k * this.steps, this.tables, sums.subarray(k * inSums.each));
    let [sum, squares, peak] = [0, 0, 0];
    for (const i of this.onA) {
      if (i > peak) peak = i;
      sum += i;
      squares += i * i;
    }
    sums.set([sum, squares, peak], inSums.ampere);
  }
}

/** Sums over one node's volts. */
function sumsOf(wave: Float64Array, from: number, { source: { length: steps }, cos, sin }: Tables, into: Float64Array): void {
  let [sum, re, im] = [0, 0, 0];
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let n = 0; n < steps; n++) {
    const v = wave[from + n];
    sum += v;
    if (v < low) low = v;
    if (v > high) high = v;
    re += v * cos[n];
    im += v * sin[n];
  }
  into.set([sum, low, high, re, im]);
}
