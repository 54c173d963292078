import { lumpedErrorRatio, lumpedLimitM, openLineSusceptanceS } from "../../physics/cable";
import { type StripModel, StripResponse } from "../../physics/if-strip";
import { crossingHz, peakOf } from "../../physics/passband";
import { inductanceToResonateH, inSeriesF, parallelResistanceOhm } from "../../physics/resonance";

export interface CableInputs {
  readonly strip: StripModel;
  readonly cableLength: number;
  readonly cableCapacitancePerLength: number;
  readonly velocityFactor: number;
  readonly couplingCapacitance: number;
  readonly slugRange: number;
  readonly trimmerRange: number;
  readonly coilQ: number;
  readonly coilError: number;
}

const r = new StripResponse();
const twoPi = 2 * Math.PI;

/** States of the plate that the sheet compares. */
export type State = "before" | "cable" | "repeaked" | "compensated";

/** Admittance of coupling capacitor in series with the open line, and of the line with its coil, at one frequency. */
const load = { re: 0, im: 0 };
function loadAt(x: CableInputs, hz: number, withCoil: boolean): void {
  const w = twoPi * hz;
  const z0 = 1 / (x.cableCapacitancePerLength * x.velocityFactor * 299792458);
  const f0 = x.strip.intermediateFrequency;
  let re = 0;
  let im = openLineSusceptanceS(hz, x.cableLength, z0, x.velocityFactor);
  if (withCoil) {
    const cableF = x.cableCapacitancePerLength * x.cableLength;
    const coilB = (twoPi * f0 * cableF) / (1 + x.coilError);
    // its loss goes with its own inductance, mistuned or not
    re = coilB / x.coilQ;
    im -= coilB * (f0 / hz);
  }
  const b = w * x.couplingCapacitance;
  const dIm = im + b;
  const size = re * re + dIm * dIm;
  load.re = (-b * im * re + b * re * dIm) / size;
  load.im = (b * re * re + b * im * dIm) / size;
}

/** Power response in one of the states; `repeak` is the strip with the primary set lower in L. */
function stateAt(x: CableInputs, hz: number, state: State): number {
  if (state === "before") return r.at(hz);
  loadAt(x, hz, state === "compensated");
  return r.at(hz, load.re, load.im);
}

const can1 = (strip: StripModel) => strip.cans[0];

/** The strip with its first primary re-peaked to its own connector: L lowered until it resonates with the cable on. */
function repeakedStrip(strip: StripModel, effectiveF: number): StripModel {
  const c = can1(strip);
  const own = c.primaryCapacitance + c.outputCapacitance;
  const f = strip.intermediateFrequency + c.primaryOffset;
  const offset = f * Math.sqrt((own + c.addedCapacitance + effectiveF) / (own + c.addedCapacitance)) - strip.intermediateFrequency;
  return { ...strip, cans: [{ ...c, primaryOffset: offset }, ...strip.cans.slice(1)] };
}

/**
 * What a cable on the first plate does, and what takes it up again.
 *
 *     Ceff = Cc Ccab / (Cc + Ccab)          df = f (1 / sqrt(1 + Ceff/C1) - 1)
 *     slug dL/L = -Ceff / (C1 + Ceff)       trimmer dC = -Ceff
 *     coil L = 1 / (w0^2 Ccab)              trap = f0 sqrt(Ccab / (Ccab + Cc))
 *
 * Gains come from the whole strip with the line (not its lumped capacitance) on the plate.
 *
 * @param x plain inputs, SI
 * @returns results, SI and dB; gain changes at the IF against the strip before
 * @source identities; gains from src/physics/if-strip.ts; second implementation in cable-load.crosscheck.test.ts
 */
export function solveCable(x: CableInputs) {
  const { strip } = x;
  const f = strip.intermediateFrequency;
  const c = can1(strip);
  const own = c.primaryCapacitance + c.outputCapacitance + c.addedCapacitance;
  const cableF = x.cableLength * x.cableCapacitancePerLength;
  const effectiveCapacitance = inSeriesF(x.couplingCapacitance, cableF);
  r.load(strip);
  const before = r.at(f);
  const db = (p: number): number => 10 * Math.log10(p / before);
  const cable = db(stateAt(x, f, "cable"));
  const compensated = db(stateAt(x, f, "compensated"));
  r.load(repeakedStrip(strip, effectiveCapacitance));
  const repeaked = db(stateAt(x, f, "repeaked"));
  const slugChange = -effectiveCapacitance / (own + effectiveCapacitance);
  return {
    cableCapacitance: cableF,
    effectiveCapacitance,
    primaryDetune: f * (1 / Math.sqrt(1 + effectiveCapacitance / own) - 1),
    gainChange: cable,
    slugChange,
    slugMargin: x.slugRange + slugChange,
    trimmerChange: -effectiveCapacitance,
    trimmerMargin: x.trimmerRange - effectiveCapacitance,
    gainChangeAfterRepeak: repeaked,
    compensatingInductance: inductanceToResonateH(f, cableF),
    compensatingLoss: compensated,
    coilParallelResistance: parallelResistanceOhm(f, cableF, x.coilQ) * (1 + x.coilError),
    trapFrequency: f * Math.sqrt(cableF / (cableF + x.couplingCapacitance)),
    lumpedError: lumpedErrorRatio(f, x.cableLength, x.velocityFactor),
    lumpedLimit: lumpedLimitM(f, x.velocityFactor, 0.01),
  };
}

/** Fills |H|^2 of each state, relative to the peak before. */
export function fillStates(x: CableInputs, axis: Float64Array, into: Readonly<Record<State, Float64Array>>): void {
  r.load(x.strip);
  const top = peakOf(r, [x.strip.intermediateFrequency]).power;
  for (const state of ["before", "cable", "compensated"] as const)
    for (let i = 0; i < axis.length; i++) into[state][i] = stateAt(x, axis[i], state) / top;
  r.load(repeakedStrip(x.strip, inSeriesF(x.couplingCapacitance, x.cableLength * x.cableCapacitancePerLength)));
  for (let i = 0; i < axis.length; i++) into.repeaked[i] = stateAt(x, axis[i], "repeaked") / top;
}

/** Width of the strip at -6 dB, for the axis only. */
export function widthForAxisHz(strip: StripModel): number {
  r.load(strip);
  const peak = peakOf(r, [strip.intermediateFrequency]);
  const w = crossingHz(r, peak, 6, 1) - crossingHz(r, peak, 6, -1);
  return Number.isFinite(w) ? w : 10_000;
}
