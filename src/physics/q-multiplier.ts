import { areApart } from "../numerics/apart";
import type { SeriesLoad, StripResponse } from "./if-strip";

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
    const size = re * re + dIm * dIm;
    const nRe = -b * im;
    const nIm = b * re;
    this.re = (nRe * re + nIm * dIm) / size;
    this.im = (nIm * re - nRe * dIm) / size;
  }

  /** Imaginary part at the tank's node of everything, looking back through the coupling capacitor into the plate; real part in `nodeRe`. */
  nodeIm(hz: number, plate: StripResponse): number {
    plate.plateAt(hz);
    const w = twoPi * hz;
    const zIm = plate.plateIm - 1 / (w * this.cc);
    const size = plate.plateRe * plate.plateRe + zIm * zIm;
    this.nodeRe = this.g + this.cableG + plate.plateRe / size;
    return w * (this.c + this.cableF) - (this.inverseL + this.cableInverseL) / w - zIm / size;
  }
  nodeRe = 0;
}

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
 * @param plate the receiver's strip
 * @param tunedHz where the tank is tuned, Hz
 * @returns critical conductance, frequency and slope; NaN where no zero of the susceptance lies
 *   within 60 kHz of the tuning
 * @source Y + 1/Zdp = 0; agrees with eigenvalues of the state matrix in a second implementation, q-multiplier.crosscheck.test.ts
 */
export function oscillationPoint(tank: TankLoad, plate: StripResponse, tunedHz: number): OscillationPoint {
  const found: OscillationPoint = { criticalS: Number.NaN, hz: Number.NaN, slopeS: Number.NaN };
  const [step, steps] = [400, 300];
  let below = tank.nodeIm(tunedHz - 60_000, plate);
  // counted, since a frequency so high that a step does not change it would never come to the end
  for (let k = 1; k <= steps; k++) {
    const hz = tunedHz - 60_000 + k * step;
    const here = tank.nodeIm(hz, plate);
    if (below < 0 !== here < 0) {
      let a = hz - step;
      let b = hz;
      let ya = below;
      while (areApart(a, b, 1e-4)) {
        const mid = (a + b) / 2;
        const y = tank.nodeIm(mid, plate);
        if (y < 0 === ya < 0) {
          a = mid;
          ya = y;
        } else b = mid;
      }
      const root = (a + b) / 2;
      tank.nodeIm(root, plate);
      const g = tank.nodeRe;
      if (!(g >= found.criticalS)) {
        found.criticalS = g;
        found.hz = root;
        const d = 5;
        found.slopeS = (root * (tank.nodeIm(root + d, plate) - tank.nodeIm(root - d, plate))) / (2 * d);
      }
    }
    below = here;
  }
  return found;
}
