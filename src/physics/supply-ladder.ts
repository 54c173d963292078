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
  /** state at the start of a period, and how the state a period later depends on it */
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

/** Sine and cosine of an angle that turns on by a step at a time. */
function turning(stepRad: number) {
  const [c, s] = [Math.cos(stepRad), Math.sin(stepRad)];
  const turn = {
    cos: 1,
    sin: 0,
    on: () => {
      const cos = turn.cos * c - turn.sin * s;
      turn.sin = turn.sin * c + turn.cos * s;
      turn.cos = cos;
    },
  };
  return turn;
}

/**
 * The ladder over one period by the trapezoidal rule. Each capacitor and choke stands as a conductance with a source of its past, so a step is one
 * pass down the ladder, one scalar equation at the rectifier, and one pass back.
 */
export class Ladder {
  private readonly count: number;
  private readonly gc: Float64Array;
  private readonly gb: Float64Array;
  private readonly sum: Float64Array;
  private readonly share: Float64Array;
  private readonly volts: Float64Array;
  private readonly capA: Float64Array;
  private readonly branchA: Float64Array;
  private readonly past: Float64Array;
  private readonly draw: Float64Array;
  private readonly wave: Float64Array;
  private readonly onA: Float64Array;
  private readonly hist: Float64Array;
  /** 2C/h of each node, and 2L/h - R of each branch */
  private readonly cap: Float64Array;
  private readonly coil: Float64Array;
  private readonly wound: Uint8Array;
  private readonly source: Float64Array;

  constructor(
    private s: Supply,
    readonly steps: number,
  ) {
    this.count = s.sections.length + 1;
    const each = () => new Float64Array(this.count);
    [this.gc, this.gb, this.cap, this.coil, this.draw, this.sum, this.share] = [each(), each(), each(), each(), each(), each(), each()];
    [this.volts, this.capA, this.branchA, this.past, this.hist] = [each(), each(), each(), each(), each()];
    this.wound = new Uint8Array(this.count);
    this.wave = new Float64Array(this.count * steps);
    this.onA = new Float64Array(steps);
    this.source = new Float64Array(steps);
    this.load(s);
  }

  /** Whether a supply has as many sections as this one, and its chokes where this one has them. */
  fits(s: Supply): boolean {
    return s.sections.length + 1 === this.count && s.sections.every((x, k) => x.henry > 0 === (this.wound[k + 1] === 1));
  }

  /** Takes another supply in, of the same count of sections. */
  load(s: Supply): void {
    this.s = s;
    const h = 1 / (s.lineHz * (s.fullWave ? 2 : 1)) / this.steps;
    for (let k = 0; k < this.count; k++) {
      const x = k === 0 ? s.first : s.sections[k - 1];
      const [ohm, henry] = k === 0 ? [0, 0] : [s.sections[k - 1].ohm, s.sections[k - 1].henry];
      this.cap[k] = (2 * x.farad) / h;
      this.gc[k] = this.cap[k] + x.siemens;
      this.gb[k] = 1 / (ohm + (2 * henry) / h);
      this.coil[k] = (2 * henry) / h - ohm;
      this.wound[k] = henry > 0 ? 1 : 0;
      this.draw[k] = x.ampere;
    }
    const turn = turning(2 * Math.PI * s.lineHz * h);
    for (let n = 0; n < this.steps; n++) {
      turn.on();
      const e = Math.SQRT2 * s.plateV * turn.sin;
      this.source[n] = s.fullWave ? Math.abs(e) : e;
    }
  }

  /** Sets what the tubes draw to the tangents of their laws at a state's volts. */
  tune(x: Float64Array): void {
    for (let k = 1; k < this.count; k++) {
      const own = this.s.sections[k - 1];
      if (!own.tube || !(own.tube.ampere > 0)) continue;
      const { ampere, siemens } = tangentAt(own.tube, Math.max(1e-3, x[k]));
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
    const { s, count, gc, gb, cap, coil, wound, sum, share, volts, capA, branchA, past, draw, hist, wave, onA, source, steps } = this;
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
    // what hangs at each node as a conductance stays over the period, and so does the part of it that the node above sees
    sum.set(gc);
    for (let k = count - 1; k >= 1; k--) {
      share[k] = gb[k] / (gb[k] + sum[k]);
      sum[k - 1] += share[k] * sum[k];
    }
    let drop = silicon ? diode.drop : 0;
    for (let n = 0; n < steps; n++) {
      // past[k]: current that node k gets from its own capacitor's past and from all behind it, less what is drawn; from the far end
      let behind = 0;
      for (let k = count - 1; k >= 1; k--) {
        // the branch's current is gb (v[k-1] - v[k]) + hist
        const own = wound[k] ? gb[k] * (volts[k - 1] - volts[k] + coil[k] * branchA[k]) : 0;
        const from = cap[k] * volts[k] + capA[k] - draw[k] + behind;
        hist[k] = own;
        past[k] = from;
        behind = share[k] * (from + own) - own;
      }
      const rest = cap[0] * volts[0] + capA[0] - draw[0] + behind;
      const i = conduct(source[n], diode, sourceOhm, sum[0], -rest, drop);
      if (!silicon && i > 0) drop = Math.cbrt((i / (diode.perveance as number)) ** 2);
      let v = i > 0 ? source[n] - i * sourceOhm - drop : rest / sum[0];
      capA[0] = cap[0] * (v - volts[0]) - (cap[0] > 0 ? capA[0] : 0);
      volts[0] = v;
      wave[n] = v;
      for (let k = 1; k < count; k++) {
        const above = v;
        v = share[k] * above + (share[k] / gb[k]) * (past[k] + hist[k]);
        capA[k] = cap[k] * (v - volts[k]) - (cap[k] > 0 ? capA[k] : 0);
        volts[k] = v;
        branchA[k] = gb[k] * (above - v) + hist[k];
        wave[k * steps + n] = v;
      }
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
      const turn = turning((2 * Math.PI) / steps);
      for (let n = 0; n < steps; n++) {
        const v = wave[k * steps + n];
        sum += v;
        if (v < low) low = v;
        if (v > high) high = v;
        turn.on();
        re += v * turn.cos;
        im += v * turn.sin;
      }
      volts.push(sum / steps);
      ripplePp.push(high - low);
      rippleRms.push((Math.SQRT2 * Math.sqrt(re * re + im * im)) / steps);
    }
    let [peakA, sumA, squareA, firstPeakV] = [0, 0, 0, 0];
    for (let n = 0; n < steps; n++) {
      const i = onA[n];
      if (i > peakA) peakA = i;
      sumA += i;
      squareA += i * i;
      if (wave[n] > firstPeakV) firstPeakV = wave[n];
    }
    const plates = s.fullWave ? 2 : 1;
    return {
      volts,
      ripplePp,
      rippleRms,
      peakA,
      plateRmsA: Math.sqrt(squareA / steps / plates),
      plateMeanA: sumA / steps / plates,
      firstPeakV,
      state,
      change,
    };
  }
}
