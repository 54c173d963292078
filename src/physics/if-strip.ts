/**
 * An IF strip as it is wired: one double-tuned can between each two tubes, solved as two coupled circuits, node by node. No narrow-band
 * approximation. Tubes are current sources with plate resistance and capacitances and no feedback from plate to grid.
 */

/** One can with the tube that drives it and what loads it. SI. */
export interface CanModel {
  readonly primaryCapacitance: number;
  readonly primaryQ: number;
  /** how far the primary's own resonance is off the IF, Hz */
  readonly primaryOffset: number;
  readonly secondaryCapacitance: number;
  readonly secondaryQ: number;
  readonly secondaryOffset: number;
  /** coupling coefficient k */
  readonly coupling: number;
  readonly transconductance: number;
  readonly plateResistance: number;
  readonly outputCapacitance: number;
  readonly inputCapacitance: number;
  readonly loadResistance: number;
  /** capacitance hung on the plate after the can was set, F */
  readonly addedCapacitance: number;
}

/** A ladder of piezoelectric resonators between equal terminations: series ones resonate at the centre, shunt ones antiresonate there. */
export interface FilterModel {
  readonly centre: number;
  /** distance of resonance and antiresonance of each resonator, Hz */
  readonly spread: number;
  readonly seriesCapacitance: number;
  readonly shuntCapacitance: number;
  readonly resonatorQ: number;
  readonly termination: number;
}

export interface StripModel {
  readonly intermediateFrequency: number;
  readonly cans: readonly CanModel[];
  /** none: no filter stands in the strip */
  readonly filter: FilterModel | null;
}

/** Sections of the ladder: a series and a shunt resonator each. */
const ladderSections = 4;
const twoPi = 2 * Math.PI;
const perCan = 12;

/**
 * The strip's response, ready to be asked at any frequency without allocating.
 *
 * For a can, with z1, z2 the coils' impedances, zm = j w M, Ya, Yb the admittances at plate and grid and det = z1 z2 - zm^2:
 *
 *     Z21 = zm / (1 + z1 Ya + z2 Yb + det Ya Yb)         Zdp = (z1 + det Yb) / (the same denominator)
 *
 * so that the denominator is a polynomial in w with five real coefficients. An admittance Y hung on the first plate turns
 * Z21 into Z21 / (1 + Y Zdp), exactly.
 *
 * @source nodal analysis of two coupled coils; double-tuned limits checked in if-strip.published.test.ts, whole strips against a second
 *   implementation and against a matrix solve in if-strip.crosscheck.test.ts
 */
export class StripResponse {
  /** last answer: complex voltage gain from the mixer grid to the detector */
  re = 0;
  im = 0;
  /** last driving-point impedance of the first plate, without what is hung on it, ohm */
  plateRe = 0;
  plateIm = 0;
  private count = 0;
  private c = new Float64Array(0);
  private hasFilter = false;
  private readonly f = new Float64Array(9);

  constructor(strip?: StripModel) {
    if (strip) this.load(strip);
  }

  /** Takes over a strip's values. Cans keep the inductance that they were set with; `addedCapacitance` does not change it. */
  load(strip: StripModel): this {
    const n = strip.cans.length;
    if (this.c.length !== n * perCan) this.c = new Float64Array(n * perCan);
    this.count = n;
    const w0 = twoPi * strip.intermediateFrequency;
    for (let i = 0; i < n; i++) this.loadCan(strip.cans[i], i * perCan, strip.intermediateFrequency, w0);
    this.hasFilter = strip.filter !== null;
    if (strip.filter) this.loadFilter(strip.filter);
    return this;
  }

  private loadCan(can: CanModel, at: number, ifHz: number, w0: number): void {
    const set1 = can.primaryCapacitance + can.outputCapacitance;
    const c2 = can.secondaryCapacitance + can.inputCapacitance;
    const l1 = 1 / ((twoPi * (ifHz + can.primaryOffset)) ** 2 * set1);
    const l2 = 1 / ((twoPi * (ifHz + can.secondaryOffset)) ** 2 * c2);
    const c1 = set1 + can.addedCapacitance;
    const r1 = (w0 * l1) / can.primaryQ;
    const r2 = (w0 * l2) / can.secondaryQ;
    const m = can.coupling * Math.sqrt(l1 * l2);
    const g1 = 1 / can.plateResistance;
    const g2 = 1 / can.loadResistance;
    const a0 = r1 * r2;
    const a1 = r1 * l2 + r2 * l1;
    const a2 = l1 * l2 - m * m;
    const b0 = g1 * g2;
    const b1 = g1 * c2 + g2 * c1;
    const b2 = c1 * c2;
    const c = this.c;
    c[at] = 1 + r1 * g1 + r2 * g2 + a0 * b0;
    c[at + 1] = -(l1 * c1 + l2 * c2 + a0 * b2 + a2 * b0 + a1 * b1);
    c[at + 2] = a2 * b2;
    c[at + 3] = r1 * c1 + l1 * g1 + r2 * c2 + l2 * g2 + a0 * b1 + a1 * b0;
    c[at + 4] = -(a2 * b1 + a1 * b2);
    c[at + 5] = can.transconductance * m;
    c[at + 6] = r1 + a0 * g2;
    c[at + 7] = -(a2 * g2 + a1 * c2);
    c[at + 8] = l1 + a1 * g2 + a0 * c2;
    c[at + 9] = -a2 * c2;
  }

  private loadFilter(p: FilterModel): void {
    const f = this.f;
    const widen = ((p.centre + p.spread) / p.centre) ** 2 - 1;
    const narrow = (p.centre / (p.centre - p.spread)) ** 2 - 1;
    f[0] = p.seriesCapacitance;
    f[1] = p.seriesCapacitance * widen;
    f[2] = 1 / ((twoPi * p.centre) ** 2 * f[1]);
    f[3] = (twoPi * p.centre * f[2]) / p.resonatorQ;
    f[4] = p.shuntCapacitance;
    f[5] = p.shuntCapacitance * narrow;
    f[6] = 1 / ((twoPi * (p.centre - p.spread)) ** 2 * f[5]);
    f[7] = (twoPi * (p.centre - p.spread) * f[6]) / p.resonatorQ;
    f[8] = p.termination;
  }

  /**
   * Power gain |H|^2 at one frequency, with an admittance hung on the first plate.
   *
   * @param hz frequency, Hz
   * @param loadRe real part of the admittance, S
   * @param loadIm imaginary part of the admittance, S
   * @returns |H|^2; the complex gain is left in `re`, `im`, the first plate's impedance in `plateRe`, `plateIm`
   */
  at(hz: number, loadRe = 0, loadIm = 0): number {
    const w = twoPi * hz;
    const w2 = w * w;
    const c = this.c;
    let re = 1;
    let im = 0;
    for (let k = 0, i = 0; i < this.count; i++, k += perCan) {
      let dRe = c[k] + w2 * (c[k + 1] + w2 * c[k + 2]);
      let dIm = w * (c[k + 3] + w2 * c[k + 4]);
      if (i === 0) {
        const nRe = c[6] + w2 * c[7];
        const nIm = w * (c[8] + w2 * c[9]);
        const size = dRe * dRe + dIm * dIm;
        this.plateRe = (nRe * dRe + nIm * dIm) / size;
        this.plateIm = (nIm * dRe - nRe * dIm) / size;
        dRe += loadRe * nRe - loadIm * nIm;
        dIm += loadRe * nIm + loadIm * nRe;
      }
      const scale = (w * c[k + 5]) / (dRe * dRe + dIm * dIm);
      const sRe = dIm * scale;
      const sIm = dRe * scale;
      const t = re * sRe - im * sIm;
      im = re * sIm + im * sRe;
      re = t;
    }
    this.re = re;
    this.im = im;
    if (this.hasFilter) this.throughFilter(w);
    return this.re * this.re + this.im * this.im;
  }

  /** Multiplies the last answer by the filter's transfer between its terminations (1 where it is transparent). */
  private throughFilter(w: number): void {
    const f = this.f;
    const sX = w * f[2] - 1 / (w * f[1]);
    const sSize = f[3] * f[3] + sX * sX;
    const sG = f[3] / sSize;
    const sB = w * f[0] - sX / sSize;
    const sY = sG * sG + sB * sB;
    const zRe = sG / sY;
    const zIm = -sB / sY;
    const pX = w * f[6] - 1 / (w * f[5]);
    const pSize = f[7] * f[7] + pX * pX;
    const yRe = f[7] / pSize;
    const yIm = w * f[4] - pX / pSize;
    let vRe = 1;
    let vIm = 0;
    let iRe = 1 / f[8];
    let iIm = 0;
    for (let s = 0; s < ladderSections; s++) {
      iRe += yRe * vRe - yIm * vIm;
      iIm += yRe * vIm + yIm * vRe;
      vRe += zRe * iRe - zIm * iIm;
      vIm += zRe * iIm + zIm * iRe;
    }
    vRe += f[8] * iRe;
    vIm += f[8] * iIm;
    const size = (vRe * vRe + vIm * vIm) / 2;
    const hRe = vRe / size;
    const hIm = -vIm / size;
    const t = this.re * hRe - this.im * hIm;
    this.im = this.re * hIm + this.im * hRe;
    this.re = t;
  }
}
