import { rootBetween } from "../numerics/root";
import type { StripResponse } from "./if-strip";
import type { SeriesLoad } from "./if-strip-wide";

const twoPi = 2 * Math.PI;

/** Feedback of a cathode-follower oscillator circuit kept below oscillation. */
export interface Feedback {
  /** C1/(C1 + C2) of the capacitive divider, 0 to 1 */
  readonly dividerRatio: number;
  readonly transconductanceS: number;
  readonly amplificationRatio: number;
}

/**
 * Negative conductance that the feedback puts across the tank: Gn = n (A - n) / (Rf + A/gm) with A = mu/(mu + 1).
 *
 * Within 0.1 % of the exact nodal solution for Rf from 2.2 kohm up, 1 % at Rf = 0, at 455 kHz with 1500 pF.
 *
 * @param f divider, gm, mu
 * @param seriesOhm series resistance of the regeneration control, ohm, zero or more
 * @returns S, positive
 * @source derived from the follower's Thevenin source A v, A/gm into the divider; no published value found: exact nodal figures of a second
 *   implementation stand in, q-multiplier.crosscheck.test.ts
 */
export function feedbackConductanceS(f: Feedback, seriesOhm: number): number {
  const a = f.amplificationRatio / (f.amplificationRatio + 1);
  return (f.dividerRatio * (a - f.dividerRatio)) / (seriesOhm + a / f.transconductanceS);
}

/**
 * Series resistance that gives a wanted negative conductance.
 *
 * @param f divider, gm, mu
 * @param conductanceS wanted Gn, S, above 0
 * @returns ohm; negative where the tube cannot give that much
 * @source feedbackConductanceS solved for Rf
 */
export function seriesResistanceOhm(f: Feedback, conductanceS: number): number {
  const a = f.amplificationRatio / (f.amplificationRatio + 1);
  return (f.dividerRatio * (a - f.dividerRatio)) / conductanceS - a / f.transconductanceS;
}

/** What hangs on the plate: coupling capacitor, then cable and its coil, then the tank. SI. */
export interface TankModel {
  readonly tankCapacitance: number;
  readonly tankQ: number;
  readonly couplingCapacitance: number;
  /** cable as a lumped capacitor, F */
  readonly cableCapacitance: number;
  readonly cableCoilQ: number;
}

/**
 * The accessory as an admittance on the first plate, in the order plate - coupling capacitor - cable and its coil - tank.
 *
 * The cable's coil resonates the cable alone at the IF; the tank is tuned by its inductance. Regeneration is a negative conductance
 * across the tank. With no coupling capacitor value below 1/1000 of the tank's the order matters little; it is solved exactly all the same.
 *
 * @source nodal analysis; second implementation in q-multiplier.crosscheck.test.ts
 */
export class TankLoad {
  /** last answer: admittance at the plate, S */
  re = 0;
  im = 0;
  private c = 0;
  private inverseL = 0;
  private g = 0;
  private cc = 0;
  private cableF = 0;
  private cableInverseL = 0;
  private cableG = 0;
  private negativeS = 0;

  /** @param tunedHz where the tank resonates by itself; @param ifHz where the cable's coil resonates the cable */
  load(m: TankModel, tunedHz: number, ifHz: number): this {
    const w = twoPi * tunedHz;
    this.c = m.tankCapacitance;
    this.inverseL = w * w * m.tankCapacitance;
    this.g = (w * m.tankCapacitance) / m.tankQ;
    this.cc = m.couplingCapacitance;
    const w0 = twoPi * ifHz;
    this.cableF = m.cableCapacitance;
    this.cableInverseL = w0 * w0 * m.cableCapacitance;
    this.cableG = (w0 * m.cableCapacitance) / m.cableCoilQ;
    this.negativeS = 0;
    return this;
  }

  set regenerationS(s: number) {
    this.negativeS = s;
  }

  /** The same load in the form that the strip fills curves with. */
  asSeries(): SeriesLoad {
    return {
      conductanceS: this.g - this.negativeS + this.cableG,
      capacitanceF: this.c + this.cableF,
      inverseH: this.inverseL + this.cableInverseL,
      seriesF: this.cc,
    };
  }

  at(hz: number): void {
    const w = twoPi * hz;
    const re = this.g - this.negativeS + this.cableG;
    const im = w * (this.c + this.cableF) - (this.inverseL + this.cableInverseL) / w;
    // in series with the coupling capacitor: Y yc / (Y + yc), yc = j w Cc
    const b = w * this.cc;
    const dIm = im + b;
    const scale = b / (re * re + dIm * dIm);
    this.re = (re * dIm - im * re) * scale;
    this.im = (re * re + im * dIm) * scale;
  }

  /** Susceptance of the tank with the cable and its coil by themselves, S. */
  ownIm(hz: number): number {
    const w = twoPi * hz;
    return w * (this.c + this.cableF) - (this.inverseL + this.cableInverseL) / w;
  }
  /**
   * The first step of what the tank sees, after one of them, by which the susceptance of all together has changed its sign; the last but one over
   * where there is none. The susceptance is taken times w: no more than its sign is wanted, and this takes no division.
   */
  turnAfter(step: number, { steps, squares }: PlateSeen): number {
    const c = this.c + this.cableF;
    const inverse = this.inverseL + this.cableInverseL;
    let below = squares[step] * c - inverse + steps[step] < 0;
    for (let k = step + 1; k < steps.length; k++) {
      const here = squares[k] * c - inverse + steps[k] < 0;
      if (here !== below) return k;
      below = here;
    }
    return steps.length;
  }
  /** Conductance of the same without regeneration, S. */
  get ownRe(): number {
    return this.g + this.cableG;
  }
}

/** The receiver as the tank's node sees it, back through the coupling capacitor into the plate: worked out once for all tunings of a tank. */
export class PlateSeen {
  /** last answer, S */
  re = 0;
  im = 0;
  /** susceptance times w at even steps over the span, S/s, and w^2 there */
  readonly steps = new Float64Array(spanSteps + 1);
  readonly squares = new Float64Array(spanSteps + 1);
  fromHz = 0;
  private plate!: StripResponse;
  private seriesF = 0;

  /** @param plate the receiver's strip; @param seriesF coupling capacitor, F; @param centreHz middle of the span, Hz */
  load(plate: StripResponse, seriesF: number, centreHz: number): this {
    this.plate = plate;
    this.seriesF = seriesF;
    this.fromHz = centreHz - (spanSteps / 2) * stepHz;
    plate.susceptancesBehind(seriesF, this.fromHz, stepHz, this.steps, this.squares);
    return this;
  }
  at(hz: number): void {
    this.plate.plateAt(hz);
    const { plateRe } = this.plate;
    const zIm = this.plate.plateIm - 1 / (twoPi * hz * this.seriesF);
    const scale = 1 / (plateRe * plateRe + zIm * zIm);
    this.re = plateRe * scale;
    this.im = -zIm * scale;
  }
}
/** An oscillation is looked for from 60 kHz below a centre to 60 kHz above it. */
const stepHz = 400;
const spanSteps = 300;

export interface OscillationPoint {
  /** negative conductance at which the circuit starts, S */
  criticalS: number;
  /** where it would start, Hz */
  hz: number;
  /** loaded Q of the node for a conductance g left over: slopeS / (2 g) with this slope w dB/dw, S */
  slopeS: number;
}

/**
 * Regeneration at which tank and receiver together oscillate: the smallest Gn for which the node's admittance is zero at some frequency.
 *
 * @param tank the accessory, loaded
 * @param seen the receiver as it sees it, loaded
 * @returns critical conductance, frequency and slope; NaN where no zero of the susceptance lies in the span
 * @source Y + 1/Zdp = 0; agrees with eigenvalues of the state matrix in a second implementation, q-multiplier.crosscheck.test.ts
 */
export function oscillationPoint(tank: TankLoad, seen: PlateSeen): OscillationPoint {
  const found: OscillationPoint = { criticalS: Number.NaN, hz: Number.NaN, slopeS: Number.NaN };
  const nodeIm = (hz: number): number => {
    seen.at(hz);
    return tank.ownIm(hz) + seen.im;
  };
  // counted, since a frequency so high that a step does not change it would never come to the end
  for (let k = tank.turnAfter(0, seen); k <= spanSteps; k = tank.turnAfter(k, seen)) {
    const hz = seen.fromHz + k * stepHz;
    const root = rootBetween(nodeIm, hz - stepHz, hz, 1e-4);
    seen.at(root);
    const g = tank.ownRe + seen.re;
    if (!(g >= found.criticalS)) {
      found.criticalS = g;
      found.hz = root;
      const d = 5;
      found.slopeS = (root * (nodeIm(root + d) - nodeIm(root - d))) / (2 * d);
    }
  }
  return found;
}
