/** What a strip is, and the numbers that its response is worked out from. */
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

/** Four sections, each a series and a shunt piezoelectric resonator, between equal terminations: series ones resonate at the centre, shunt ones antiresonate there. */
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

const twoPi = 2 * Math.PI;
/** Numbers of a can. */
export const perCan = 12;

/**
 * The numbers of a can that its response is worked out from: coefficients of its denominator in w, gm M, coefficients of what the plate drives. Cans
 * keep the inductance that they were set with; `addedCapacitance` does not change it.
 *
 * @param can the can, SI
 * @param ifHz the IF that it was set for, Hz
 * @param c overwritten from `at` on, `perCan` numbers
 * @param at the first of them
 * @source the polynomial of StripResponse
 */
export function writeCan(can: CanModel, ifHz: number, c: Float64Array, at: number): void {
  const w0 = twoPi * ifHz;
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

/**
 * The numbers of a filter: C0, 1/Cm, Lm, r of the series arm, the same of the shunt arm, termination and its inverse.
 *
 * @param p the filter, SI
 * @param f ten numbers, overwritten
 * @source Butterworth and Van Dyke's circuit of a resonator
 */
export function writeFilter(p: FilterModel, f: Float64Array): void {
  const widen = ((p.centre + p.spread) / p.centre) ** 2 - 1;
  const narrow = (p.centre / (p.centre - p.spread)) ** 2 - 1;
  f[0] = p.seriesCapacitance;
  f[1] = 1 / (p.seriesCapacitance * widen);
  f[2] = f[1] / (twoPi * p.centre) ** 2;
  f[3] = (twoPi * p.centre * f[2]) / p.resonatorQ;
  f[4] = p.shuntCapacitance;
  f[5] = 1 / (p.shuntCapacitance * narrow);
  f[6] = f[5] / (twoPi * (p.centre - p.spread)) ** 2;
  f[7] = (twoPi * (p.centre - p.spread) * f[6]) / p.resonatorQ;
  f[8] = p.termination;
  f[9] = 1 / p.termination;
}
