import { type TubeLoad, tangentAt } from "./tube-load";

/** A rectifier with its filter, solved in the time domain to its steady state. All SI. */
export interface Diode {
  /** perveance of a vacuum diode, A/V^1.5; undefined for silicon, whose drop is the same at any current */
  readonly perveance?: number;
  /** drop of silicon, V; of all that conduct in series */
  readonly drop: number;
}
export interface Section {
  /** in series, from the node before to this one; at least a milliohm where there is no choke */
  readonly ohm: number;
  readonly henry: number;
  /** from the node to the chassis, F; 0 for none */
  readonly farad: number;
  /** drawn at the node: a constant current, A, a conductance, S, and what tubes draw at the node's volts */
  readonly ampere: number;
  readonly siemens: number;
  readonly tube?: TubeLoad;
}
export interface Supply {
  /** rms volts that one plate sees */
  readonly plateV: number;
  readonly lineHz: number;
  /** whether both half cycles charge */
  readonly fullWave: boolean;
  /** winding resistance as one plate sees it, ohm, with what was put in series */
  readonly sourceOhm: number;
  readonly diode: Diode;
  /** at the rectifier's cathode: farad 0 where a choke comes first; its own ohm and henry do not enter */
  readonly first: Omit<Section, "ohm" | "henry">;
  readonly sections: readonly Section[];
}
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
  /** state at the start of a period, and how the state a period later depends on it: a like supply is solved from these */
  readonly state: Float64Array;
  readonly change: Float64Array;
}

/** The current of the rectifier where `rest` is what the ladder draws at no volts and `g` its conductance: solved for the drop, which is monotone. */
function conduct(e: number, d: Diode, rs: number, g: number, rest: number, start: number): number {
  if (d.perveance === undefined) {
    const u = e - d.drop;
    // i = g v + rest at v = u - i rs
    const i = (g * u + rest) / (1 + g * rs);
    return Math.max(i, 0);
  }
  if (g * e + rest <= 0) return 0;
  const k = d.perveance;
  let x = start > 1e-6 ? start : 1;
  for (let n = 0; n < 60; n++) {
    const root = Math.sqrt(x);
    const i = k * x * root;
    const f = i - g * (e - x - rs * i) - rest;
    const slope = 1.5 * k * root * (1 + g * rs) + g;
    const next = x - f / slope;
    const to = next > 0 ? next : x / 8;
    if (Math.abs(to - x) < 1e-9 * (1 + x)) {
      x = to;
      break;
    }
    x = to;
  }
  return k * x * Math.sqrt(x);
}

/**
 * The ladder over one period by the trapezoidal rule. Each capacitor and choke stands as a conductance with a source of its past, so a step is one
 * pass down the ladder, one scalar equation at the rectifier, and one pass back.
 */
export class Ladder {
  private readonly count: number;
  private readonly h: number;
  private readonly gc: Float64Array;
  private readonly gb: Float64Array;
  private readonly sum: Float64Array;
  private readonly volts: Float64Array;
  private readonly capA: Float64Array;
  private readonly branchA: Float64Array;
  private readonly past: Float64Array;
  private readonly draw: Float64Array;
  readonly wave: Float64Array;
  private readonly onA: Float64Array;
  private readonly hist = new Float64Array(8);
  /** 2C/h of each node, and 2L/h - R of each branch */
  private readonly cap: Float64Array;
  private readonly coil: Float64Array;
  private readonly wound: Uint8Array;
  private readonly source: Float64Array;
  private readonly tubes: readonly (readonly [node: number, load: TubeLoad])[];

  constructor(
    private readonly s: Supply,
    readonly steps: number,
  ) {
    const all = [{ ...s.first, ohm: 0, henry: 0 }, ...s.sections];
    this.count = all.length;
    this.tubes = s.sections.flatMap((x, k) => (x.tube && x.tube.ampere > 0 ? [[k + 1, x.tube] as const] : []));
    this.h = 1 / (s.lineHz * (s.fullWave ? 2 : 1)) / steps;
    this.gc = Float64Array.from(all, (x) => (2 * x.farad) / this.h + x.siemens);
    this.gb = Float64Array.from(all, (x) => 1 / (x.ohm + (2 * x.henry) / this.h));
    this.cap = Float64Array.from(all, (x) => (2 * x.farad) / this.h);
    this.coil = Float64Array.from(all, (x) => (2 * x.henry) / this.h - x.ohm);
    this.wound = Uint8Array.from(all, (x) => (x.henry > 0 ? 1 : 0));
    const w = 2 * Math.PI * s.lineHz * this.h;
    this.source = Float64Array.from({ length: steps }, (_, n) => {
      const e = Math.SQRT2 * s.plateV * Math.sin(w * (n + 1));
      return s.fullWave ? Math.abs(e) : e;
    });
    this.draw = Float64Array.from(all, (x) => x.ampere);
    this.sum = new Float64Array(this.count);
    this.volts = new Float64Array(this.count);
    this.capA = new Float64Array(this.count);
    this.branchA = new Float64Array(this.count);
    this.past = new Float64Array(this.count);
    this.wave = new Float64Array(this.count * steps);
    this.onA = new Float64Array(steps);
  }

  /** Sets what the tubes draw to the tangents of their laws at a state's volts. */
  tune(x: Float64Array): void {
    for (const [k, t] of this.tubes) {
      const { ampere, siemens } = tangentAt(t, Math.max(1e-3, x[k]));
      const own = this.s.sections[k - 1];
      this.draw[k] = own.ampere + ampere;
      this.gc[k] = this.cap[k] + own.siemens + siemens;
    }
  }

  /** Volts of the capacitors, then currents of the chokes: what a period begins with. */
  get size(): number {
    return this.count + this.s.sections.filter((x) => x.henry > 0).length;
  }

  /** Runs one period from a state, and writes the state at its end. */
  run(from: Float64Array, to: Float64Array): void {
    const { s, count, gc, gb, cap, coil, wound, sum, volts, capA, branchA, past, draw, hist, wave, onA, source, steps } = this;
    const { diode, sourceOhm } = s;
    const silicon = diode.perveance === undefined;
    let at = count;
    for (let k = 0; k < count; k++) volts[k] = from[k];
    for (let k = 1; k < count; k++) branchA[k] = wound[k] ? from[at++] : (volts[k - 1] - volts[k]) * gb[k];
    // the period begins where the source crosses zero: nothing conducts
    for (let k = 0; k < count; k++) {
      const out = k + 1 < count ? branchA[k + 1] : 0;
      const into = k > 0 ? branchA[k] : 0;
      capA[k] = cap[k] > 0 ? into - out - draw[k] - (gc[k] - cap[k]) * volts[k] : 0;
    }
    let drop = 0;
    for (let n = 0; n < steps; n++) {
      // past[k]: current that node k gets from its own capacitor's past, less what is drawn
      for (let k = 0; k < count; k++) {
        past[k] = cap[k] * volts[k] + capA[k] - draw[k];
        sum[k] = gc[k];
      }
      // from the far end: what hangs at node k, as a conductance sum[k] and a source past[k]
      for (let k = count - 1; k >= 1; k--) {
        // the branch's current is gb (v[k-1] - v[k]) + hist
        hist[k] = wound[k] ? gb[k] * (volts[k - 1] - volts[k] + coil[k] * branchA[k]) : 0;
        const total = gb[k] + sum[k];
        sum[k - 1] += (gb[k] * sum[k]) / total;
        past[k - 1] += (gb[k] * (past[k] + hist[k])) / total - hist[k];
      }
      const i = conduct(source[n], diode, sourceOhm, sum[0], -past[0], drop);
      drop = silicon ? diode.drop : Math.cbrt((i / (diode.perveance as number)) ** 2);
      let v = i > 0 ? source[n] - i * sourceOhm - drop : past[0] / sum[0];
      capA[0] = cap[0] * (v - volts[0]) - (cap[0] > 0 ? capA[0] : 0);
      volts[0] = v;
      for (let k = 1; k < count; k++) {
        const above = v;
        v = (gb[k] * above + past[k] + hist[k]) / (gb[k] + sum[k]);
        capA[k] = cap[k] * (v - volts[k]) - (cap[k] > 0 ? capA[k] : 0);
        volts[k] = v;
        branchA[k] = gb[k] * (above - v) + hist[k];
      }
      for (let k = 0; k < count; k++) wave[k * steps + n] = volts[k];
      onA[n] = i;
    }
    at = count;
    for (let k = 0; k < count; k++) to[k] = volts[k];
    for (let k = 1; k < count; k++) if (this.wound[k]) to[at++] = branchA[k];
  }

  /** What the last period was like. */
  solved(state: Float64Array, change: Float64Array): SupplySolved {
    const { count, steps, wave, onA, s } = this;
    const volts: number[] = [];
    const ripplePp: number[] = [];
    const rippleRms: number[] = [];
    for (let k = 0; k < count; k++) {
      let sum = 0;
      let low = Number.POSITIVE_INFINITY;
      let high = Number.NEGATIVE_INFINITY;
      let [re, im] = [0, 0];
      for (let n = 0; n < steps; n++) {
        const v = wave[k * steps + n];
        sum += v;
        if (v < low) low = v;
        if (v > high) high = v;
        const a = (2 * Math.PI * (n + 1)) / steps;
        re += v * Math.cos(a);
        im += v * Math.sin(a);
      }
      volts.push(sum / steps);
      ripplePp.push(high - low);
      rippleRms.push((Math.SQRT2 * Math.hypot(re, im)) / steps);
    }
    const mean = onA.reduce((a, b) => a + b, 0) / steps;
    const square = onA.reduce((a, b) => a + b * b, 0) / steps;
    const plates = s.fullWave ? 2 : 1;
    return {
      volts,
      ripplePp,
      rippleRms,
      peakA: onA.reduce((a, b) => Math.max(a, b), 0),
      plateRmsA: Math.sqrt(square / plates),
      plateMeanA: mean / plates,
      firstPeakV: wave.subarray(0, steps).reduce((a, b) => Math.max(a, b), 0),
      state,
      change,
    };
  }
}
