/**
 * An IF strip as it is wired: one double-tuned can between each two tubes, solved as two coupled circuits, node by node. No narrow-band
 * approximation. Tubes are current sources with plate resistance and capacitances and no feedback from plate to grid.
 */
import { perCan, type StripModel, writeCan, writeFilter } from "./if-strip-numbers";
import { type SeriesLoad, type StripNumbers, wideStrip } from "./if-strip-wide";
import type { Gains } from "./response";

const twoPi = 2 * Math.PI;
/** Fewer frequencies than this are told as soon one by one. */
const fewest = 6;

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
 * @source nodal analysis of two coupled coils; double-tuned limits checked in passband.published.test.ts, whole strips against a second
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
  /** ladder: C0, 1/Cm, Lm, r of the series arm, the same of the shunt arm, termination and its inverse */
  private readonly f = Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 1, 1);
  /** the numbers as they are; another object whenever they change */
  private laid: StripNumbers = { cans: this.c, ladder: undefined };

  /** @param strip its values, if known; @param plain true to go without WebAssembly */
  constructor(
    strip?: StripModel,
    private readonly plain = false,
  ) {
    if (strip) this.load(strip);
  }

  /** Takes over a strip's values. Cans keep the inductance that they were set with; `addedCapacitance` does not change it. */
  load(strip: StripModel): this {
    const n = strip.cans.length;
    if (this.c.length !== n * perCan) this.c = new Float64Array(n * perCan);
    this.count = n;
    for (let i = 0; i < n; i++) writeCan(strip.cans[i], strip.intermediateFrequency, this.c, i * perCan);
    this.hasFilter = strip.filter !== null;
    if (strip.filter) writeFilter(strip.filter, this.f);
    this.laid = { cans: this.c, ladder: this.hasFilter ? this.f : undefined };
    return this;
  }

  /**
   * Power gain |H|^2 at one frequency, with an admittance hung on the first plate.
   * @param hz frequency, Hz
   * @param loadRe real part of the admittance, S
   * @param loadIm imaginary part of the admittance, S
   * @returns |H|^2
   */
  at(hz: number, loadRe = 0, loadIm = 0): number {
    const w = twoPi * hz;
    const w2 = w * w;
    const c = this.c;
    const end = this.count * perCan;
    let re = c[0] + w2 * (c[1] + w2 * c[2]);
    let im = w * (c[3] + w2 * c[4]);
    if (loadRe !== 0 || loadIm !== 0) {
      const nRe = c[6] + w2 * c[7];
      const nIm = w * (c[8] + w2 * c[9]);
      re += loadRe * nRe - loadIm * nIm;
      im += loadRe * nIm + loadIm * nRe;
    }
    let below = re * re + im * im;
    let above = w * c[5];
    for (let k = perCan; k < end; k += perCan) {
      re = c[k] + w2 * (c[k + 1] + w2 * c[k + 2]);
      im = w * (c[k + 3] + w2 * c[k + 4]);
      below *= re * re + im * im;
      above *= w * c[k + 5];
    }
    if (this.hasFilter) {
      this.filterDenominator(w);
      below *= this.vRe * this.vRe + this.vIm * this.vIm;
      above *= 2;
    }
    return (above * above) / below;
  }

  /** Complex gain at one frequency: left in `re`, `im`. Arguments as for `at`. */
  complexAt(hz: number, loadRe = 0, loadIm = 0): void {
    const w = twoPi * hz;
    const w2 = w * w;
    const c = this.c;
    const nRe = c[6] + w2 * c[7];
    const nIm = w * (c[8] + w2 * c[9]);
    let dRe = 1;
    let dIm = 0;
    let above = 1;
    for (let i = 0, k = 0; i < this.count; i++, k += perCan) {
      const re = c[k] + w2 * (c[k + 1] + w2 * c[k + 2]) + (i === 0 ? loadRe * nRe - loadIm * nIm : 0);
      const im = w * (c[k + 3] + w2 * c[k + 4]) + (i === 0 ? loadRe * nIm + loadIm * nRe : 0);
      // a can's gain is j w gm M over this: the j turns the denominator by -j
      const t = dRe * im + dIm * re;
      dIm = dIm * im - dRe * re;
      dRe = t;
      above *= w * c[k + 5];
    }
    if (this.hasFilter) {
      this.filterDenominator(w);
      const t = dRe * this.vRe - dIm * this.vIm;
      dIm = dRe * this.vIm + dIm * this.vRe;
      dRe = t;
      above *= 2;
    }
    const scale = above / (dRe * dRe + dIm * dIm);
    this.re = dRe * scale;
    this.im = -dIm * scale;
  }

  /**
   * Power gain at many frequencies.
   * @param hz frequencies, Hz
   * @param into |H|^2
   * @param load what hangs on the first plate, if anything
   * @param count how many of them; all where not said
   */
  fill(hz: Float64Array, into: Float64Array, load?: SeriesLoad, count = Math.min(hz.length, into.length)): void {
    const wide = this.plain || count < fewest ? undefined : wideStrip(this.c);
    if (wide) wide.power({ strip: this.laid, load }, hz, into, count);
    for (let i = 0; !wide && i < count; i++) {
      if (load) this.hang(load, hz[i], i);
      into[i] = load ? this.at(hz[i], this.hungRe, this.hungIm) : this.at(hz[i]);
    }
  }
  fillPower(hz: Float64Array, into: Float64Array, count: number): void {
    this.fill(hz, into, undefined, count);
  }

  /**
   * Complex gain at many frequencies.
   * @param g its `hz`, Hz, are asked after; the parts of the gain are left in its `re` and `im`
   * @param load what hangs on the first plate, if anything
   * @param count how many of them
   */
  fillComplex(g: Gains, load: SeriesLoad | undefined, count: number): void {
    const wide = this.plain || count < fewest ? undefined : wideStrip(this.c);
    if (wide) wide.complex({ strip: this.laid, load }, g, count);
    for (let i = 0; !wide && i < count; i++) {
      if (load) this.hang(load, g.hz[i], i);
      this.complexAt(g.hz[i], load ? this.hungRe : 0, load ? this.hungIm : 0);
      g.re[i] = this.re;
      g.im[i] = this.im;
    }
  }
  /** The same where nothing hangs there. */
  fillGain(g: Gains, count: number): void {
    this.fillComplex(g, undefined, count);
  }

  private hungRe = 0;
  private hungIm = 0;
  /** Admittance of what hangs on the plate through its capacitor: Y yc / (Y + yc), yc = j w Cc. */
  private hang({ conductanceS: g, capacitanceF, inverseH, seriesF, susceptanceS }: SeriesLoad, hz: number, i: number): void {
    const w = twoPi * hz;
    const b = w * seriesF;
    const y = susceptanceS ? susceptanceS[i] : w * capacitanceF - inverseH / w;
    const d = y + b;
    const scale = b / (g * g + d * d);
    this.hungRe = g * b * scale;
    this.hungIm = (g * g + y * d) * scale;
  }

  /** Driving-point impedance of the first plate, without what is hung on it: left in `plateRe`, `plateIm`, ohm. */
  plateAt(hz: number): void {
    const w = twoPi * hz;
    const w2 = w * w;
    const c = this.c;
    const dRe = c[0] + w2 * (c[1] + w2 * c[2]);
    const dIm = w * (c[3] + w2 * c[4]);
    const nRe = c[6] + w2 * c[7];
    const nIm = w * (c[8] + w2 * c[9]);
    const size = 1 / (dRe * dRe + dIm * dIm);
    this.plateRe = (nRe * dRe + nIm * dIm) * size;
    this.plateIm = (nIm * dRe - nRe * dIm) * size;
  }

  /**
   * Susceptance of the first plate as it is seen through a capacitor, at even steps: jwC D / (D + jwC N) of Zdp = N/D.
   * @param seriesF the capacitor, F
   * @param fromHz the first step, Hz
   * @param stepHz from each to the next, Hz
   * @param timesW susceptance times w, S/s
   * @param squares w^2, of the same length
   */
  susceptancesBehind(seriesF: number, fromHz: number, stepHz: number, timesW: Float64Array, squares: Float64Array): void {
    const [c0, c1, c2, c3, c4, , n0, n1, n2, n3] = this.c;
    for (let k = 0; k < timesW.length; k++) {
      const w = twoPi * (fromHz + k * stepHz);
      const w2 = w * w;
      const b = w * seriesF;
      const dRe = c0 + w2 * (c1 + w2 * c2);
      const dIm = w * (c3 + w2 * c4);
      const re = dRe - b * (w * (n2 + w2 * n3));
      const im = dIm + b * (n0 + w2 * n1);
      timesW[k] = (w * b * (dRe * re + dIm * im)) / (re * re + im * im);
      squares[k] = w2;
    }
  }

  private vRe = 1;
  private vIm = 0;

  /** What the ladder's source must give for one volt at its end, termination included; the transfer is 2 over this. */
  private filterDenominator(w: number): void {
    const f = this.f;
    const inverse = 1 / w;
    // series arm: (r + j x) / (1 + j w C0 (r + j x))
    const sX = w * f[2] - inverse * f[1];
    const sC = w * f[0];
    const sRe = 1 - sC * sX;
    const sIm = sC * f[3];
    const sScale = 1 / (sRe * sRe + sIm * sIm);
    const zRe = (f[3] * sRe + sX * sIm) * sScale;
    const zIm = (sX * sRe - f[3] * sIm) * sScale;
    const pX = w * f[6] - inverse * f[5];
    const pScale = 1 / (f[7] * f[7] + pX * pX);
    const yRe = f[7] * pScale;
    const yIm = w * f[4] - pX * pScale;
    // four like sections in a row, each of trace t = 2 + z y, doubled twice: with q = t^2 - 2, A + D = q^2 - 2 and B/z = C/y = q t
    const tRe = 2 + zRe * yRe - zIm * yIm;
    const tIm = zRe * yIm + zIm * yRe;
    const qRe = tRe * tRe - tIm * tIm - 2;
    const qIm = 2 * tRe * tIm;
    const endRe = zRe * f[9] + yRe * f[8];
    const endIm = zIm * f[9] + yIm * f[8];
    const sumRe = qRe + tRe * endRe - tIm * endIm;
    const sumIm = qIm + tRe * endIm + tIm * endRe;
    this.vRe = qRe * sumRe - qIm * sumIm - 2;
    this.vIm = qRe * sumIm + qIm * sumRe;
  }
}
