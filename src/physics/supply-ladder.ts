import { at, inSection, section } from "./supply-numbers";
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

/** Sine and cosine of each step: of the source, and of the ripple's fundamental. */
function tablesOf(steps: number, fullWave: boolean) {
  const each = (f: (n: number) => number) => Float64Array.from({ length: steps }, (_, n) => f(n + 1));
  const turn = (2 * Math.PI) / steps;
  return {
    source: each((n) => (fullWave ? Math.abs(Math.sin((turn * n) / 2)) : Math.sin(turn * n))),
    cos: each((n) => Math.cos(turn * n)),
    sin: each((n) => Math.sin(turn * n)),
  };
}

/**
 * The root s above 0 of cubic s^3 + square s^2 = right: the root of a vacuum diode's drop, whose current is its cube.
 *
 * @source Halley, whose step leaves of the order of its cube
 */
function rootOfDrop(cubic: number, square: number, right: number, start: number): number {
  let s = start > 0 ? start : Math.sqrt(right / square);
  for (let n = 0; n < 60; n++) {
    const off = s * s * (cubic * s + square) - right;
    const slope = s * (3 * cubic * s + 2 * square);
    const step = (off * slope) / (slope * slope - off * (3 * cubic * s + square));
    s = step < s ? s - step : s / 8;
    if (Math.abs(step) < 1e-3 * s) break;
  }
  return s;
}

/** One node of the ladder: what it hangs on, and its past. */
interface Rung {
  /** 2C/h, drawn current, and conductance to the chassis with that of the capacitor */
  cap: number;
  draw: number;
  shunt: number;
  /** conductance of the branch before it, 2L/h - R of its choke, and whether it has one */
  branch: number;
  coil: number;
  wound: boolean;
}
const rung = (): Rung => ({ cap: 0, draw: 0, shunt: 0, branch: 0, coil: 0, wound: false });

/**
 * What stays over a period: the share of each node's conductance that passes each branch, all of it as the rectifier sees it, what is drawn as the
 * rectifier sees it, and how a choke's past moves with its volts and with itself.
 */
function staysOf([first, second, third]: readonly [Rung, Rung, Rung]) {
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
 * The ladder over one period by the trapezoidal rule. Each capacitor and choke stands as a conductance with a source of its past, so a step is one
 * pass down the ladder, one scalar equation at the rectifier, and one pass back.
 */
export class Ladder {
  private readonly rungs = [rung(), rung(), rung()] as const;
  private readonly wave: Float64Array;
  private readonly onA: Float64Array;
  private tables: ReturnType<typeof tablesOf>;
  private fullWave = true;
  private p: Float64Array = new Float64Array(0);

  /** @param steps of a period */
  constructor(readonly steps: number) {
    this.wave = new Float64Array(nodeCount * steps);
    this.onA = new Float64Array(steps);
    this.tables = tablesOf(steps, true);
  }

  /** Takes a supply in by its numbers, which are kept and not copied. */
  load(p: Float64Array, fullWave: boolean): void {
    if (fullWave !== this.fullWave) this.tables = tablesOf(this.steps, fullWave);
    this.fullWave = fullWave;
    this.p = p;
    const perStep = 2 * p[at.lineHz] * (fullWave ? 2 : 1) * this.steps;
    const [first, ...sections] = this.rungs;
    first.cap = p[at.farad] * perStep;
    first.draw = p[at.ampere];
    first.shunt = first.cap + p[at.siemens];
    for (const [k, x] of sections.entries()) {
      const own = section(k as 0 | 1);
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
    const { p, steps, wave, onA } = this;
    const { source } = this.tables;
    const [{ cap: c0, draw: d0, shunt: g0 }, { cap: c1, draw: d1, shunt: g1, branch: b1, coil: l1 }, last] = this.rungs;
    const { cap: c2, draw: d2, shunt: g2, branch: b2, coil: l2 } = last;
    const { s1, s2, s12, r1, r2, sum0, z0, drawn, w1, w2, u1, y1, u2, y2 } = staysOf(this.rungs);
    const [crest, ohm, perveance, drop] = [Math.SQRT2 * p[at.plateV], p[at.sourceOhm], p[at.perveance], p[at.drop]];
    const series = 1 + sum0 * ohm;
    const cubic = perveance * series;
    let [v0, v1, v2] = [from[0], from[1], from[2]];
    let i1 = w1 > 0 ? 1e-3 * from[3] : (v0 - v1) * b1;
    let i2 = w2 > 0 ? 1e-3 * from[4] : (v1 - v2) * b2;
    // the past of each capacitor, 2C/h v + i, and of each choke, G (v + (2L/h - R) i)
    let h0 = c0 > 0 ? c0 * v0 - i1 - d0 - (g0 - c0) * v0 : 0;
    let h1 = c1 > 0 ? c1 * v1 + i1 - i2 - d1 - (g1 - c1) * v1 : 0;
    let h2 = c2 > 0 ? c2 * v2 + i2 - d2 - (g2 - c2) * v2 : 0;
    let o1 = w1 * (v0 - v1 + l1 * i1);
    let o2 = w2 * (v1 - v2 + l2 * i2);
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
    to.set([v0, v1, v2, 1e3 * i1, 1e3 * i2]);
  }

  /** What the last period was like, at so many of its nodes. */
  solved(count: number): SupplySolved {
    const { steps, wave, onA, tables } = this;
    const volts: number[] = [];
    const ripplePp: number[] = [];
    const rippleRms: number[] = [];
    let firstPeakV = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < count; k++) {
      let [sum, re, im] = [0, 0, 0];
      let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
      for (let n = 0; n < steps; n++) {
        const v = wave[k * steps + n];
        sum += v;
        if (v < low) low = v;
        if (v > high) high = v;
        re += v * tables.cos[n];
        im += v * tables.sin[n];
      }
      volts.push(sum / steps);
      ripplePp.push(high - low);
      rippleRms.push((Math.SQRT2 * Math.sqrt(re * re + im * im)) / steps);
      if (k === 0) firstPeakV = high;
    }
    let [peakA, sumA, squareA] = [0, 0, 0];
    for (let n = 0; n < steps; n++) {
      const i = onA[n];
      if (i > peakA) peakA = i;
      sumA += i;
      squareA += i * i;
    }
    const plates = this.fullWave ? 2 : 1;
    return {
      volts,
      ripplePp,
      rippleRms,
      peakA,
      plateRmsA: Math.sqrt(squareA / steps / plates),
      plateMeanA: sumA / steps / plates,
      firstPeakV,
    };
  }
}
