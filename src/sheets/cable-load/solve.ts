import { lumpedErrorRatio, lumpedLimitM, openLineSusceptanceS } from "../../physics/cable";
import { StripResponse } from "../../physics/if-strip";
import type { StripModel } from "../../physics/if-strip-numbers";
import type { SeriesLoad } from "../../physics/if-strip-wide";
import { crossingHz, peakOf } from "../../physics/passband";
import { inductanceToResonateH, inSeriesF, parallelResistanceOhm } from "../../physics/resonance";
import type { Asked } from "./ask";

type CableInputs = Omit<Asked, "chassis" | "cableType">;
/** States of the plate that are compared. */
export const states = ["before", "cable", "repeaked", "compensated"] as const;
type State = (typeof states)[number];

const twoPi = 2 * Math.PI;
const lightMPerS = 299792458;

/** The open line behind the coupling capacitor, with its coil or without, as an admittance on the plate. */
class LineLoad {
  /** last answer, S */
  re = 0;
  im = 0;
  private x!: CableInputs;
  private z0 = 0;
  private f0 = 0;
  private coilB = 0;
  private coilG = 0;

  load(x: CableInputs): void {
    this.x = x;
    this.z0 = 1 / (x.cableCapacitancePerLength * x.velocityFactor * lightMPerS);
    this.f0 = x.strip.intermediateFrequency;
    this.coilB = (twoPi * this.f0 * x.cableCapacitancePerLength * x.cableLength) / (1 + x.coilError);
    // its loss goes with its own inductance, mistuned or not
    this.coilG = this.coilB / x.coilQ;
  }
  /** What the line alone conducts, S. */
  lineS = (hz: number): number => openLineSusceptanceS(hz, this.x.cableLength, this.z0, this.x.velocityFactor);
  private susceptanceS = new Float64Array(0);
  /** What hangs on the plate at many frequencies; the next such call writes over it. */
  over(hz: Float64Array, withCoil: boolean): SeriesLoad {
    if (this.susceptanceS.length !== hz.length) this.susceptanceS = new Float64Array(hz.length);
    const { susceptanceS } = this;
    const coilTimesHz = withCoil ? this.coilB * this.f0 : 0;
    for (let i = 0; i < hz.length; i++) susceptanceS[i] = this.lineS(hz[i]) - coilTimesHz / hz[i];
    const none = { capacitanceF: 0, inverseH: 0 };
    return { ...none, conductanceS: withCoil ? this.coilG : 0, seriesF: this.x.couplingCapacitance, susceptanceS };
  }
  at(hz: number, lineS: number, withCoil: boolean): void {
    const re = withCoil ? this.coilG : 0;
    const im = withCoil ? lineS - this.coilB * (this.f0 / hz) : lineS;
    const b = twoPi * hz * this.x.couplingCapacitance;
    const dIm = im + b;
    const size = re * re + dIm * dIm;
    this.re = (-b * im * re + b * re * dIm) / size;
    this.im = (b * re * re + b * im * dIm) / size;
  }
}

/** The strip with its first primary re-peaked to its own connector: L lowered until it resonates with the cable on. */
function repeakedStrip(strip: StripModel, effectiveF: number): StripModel {
  const c = strip.cans[0];
  const own = c.primaryCapacitance + c.outputCapacitance;
  const f = strip.intermediateFrequency + c.primaryOffset;
  const offset = f * Math.sqrt((own + c.addedCapacitance + effectiveF) / (own + c.addedCapacitance)) - strip.intermediateFrequency;
  return { ...strip, cans: [{ ...c, primaryOffset: offset }, ...strip.cans.slice(1)] };
}
const effectiveOf = (x: CableInputs, lengthM = x.cableLength): number =>
  inSeriesF(x.couplingCapacitance, lengthM * x.cableCapacitancePerLength);
const ownF = ({ strip: { cans } }: CableInputs): number =>
  cans[0].primaryCapacitance + cans[0].outputCapacitance + cans[0].addedCapacitance;
/** Shift of the first primary by a cable of a length, Hz. */
const detuneHz = (x: CableInputs, lengthM: number): number =>
  x.strip.intermediateFrequency * (1 / Math.sqrt(1 + effectiveOf(x, lengthM) / ownF(x)) - 1);

/**
 * What a cable on the first plate does, and what takes it up again; it holds what draw after draw works with.
 *
 *     Ceff = Cc Ccab / (Cc + Ccab)          df = f (1 / sqrt(1 + Ceff/C1) - 1)
 *     slug dL/L = -Ceff / (C1 + Ceff)       trimmer dC = -Ceff
 *     coil L = 1 / (w0^2 Ccab)              trap = f0 sqrt(Ccab / (Ccab + Cc))
 *
 * Gains come from the whole strip with the line (not its lumped capacitance) on the plate.
 *
 * @returns `solve`: results, SI and dB, gain changes at the IF against the strip before; `fill`: |H|^2 of a state of what was solved last, relative to
 *   the peak before; `fillByLength`: shift of the first primary for cables of other lengths, Hz; `widthForAxisHz`: width of the strip at -6 dB, for the axis only
 * @source identities; gains from src/physics/if-strip.ts; second implementation in cable-load.crosscheck.test.ts
 */
export function cableSolver() {
  const before = new StripResponse();
  const repeaked = new StripResponse();
  const line = new LineLoad();
  const load = (x: CableInputs): void => {
    before.load(x.strip);
    repeaked.load(repeakedStrip(x.strip, effectiveOf(x)));
    line.load(x);
  };

  const solve = (x: CableInputs) => {
    load(x);
    return figuresOf(x, gainsAtIf(x.strip.intermediateFrequency));
  };
  const gainsAtIf = (f: number) => {
    const own = before.at(f);
    const gain = (r: StripResponse, withCoil: boolean): number => {
      line.at(f, line.lineS(f), withCoil);
      return 10 * Math.log10(r.at(f, line.re, line.im) / own);
    };
    return { cable: gain(before, false), repeaked: gain(repeaked, false), compensated: gain(before, true) };
  };

  const fill = (x: CableInputs, state: State, axis: Float64Array, into: Float64Array): void => {
    const strip = state === "repeaked" ? repeaked : before;
    strip.fill(axis, into, state === "before" ? undefined : line.over(axis, state === "compensated"));
    const top = peakOf(before, [x.strip.intermediateFrequency]).power;
    for (let i = 0; i < axis.length; i++) into[i] /= top;
  };

  const fillByLength = (x: CableInputs, lengthsM: Float64Array, into: Float64Array): void => {
    for (let i = 0; i < into.length; i++) into[i] = detuneHz(x, lengthsM[i]);
  };

  const widthForAxisHz = (strip: StripModel): number => {
    before.load(strip);
    const peak = peakOf(before, [strip.intermediateFrequency]);
    const w = crossingHz(before, peak, 6, 1) - crossingHz(before, peak, 6, -1);
    return Number.isFinite(w) ? w : 10_000;
  };
  return { solve, fill, fillByLength, widthForAxisHz };
}

function figuresOf(x: CableInputs, gains: { readonly cable: number; readonly repeaked: number; readonly compensated: number }) {
  const { strip } = x;
  const f = strip.intermediateFrequency;
  const own = ownF(x);
  const cableF = x.cableLength * x.cableCapacitancePerLength;
  const effectiveCapacitance = effectiveOf(x);
  const slugChange = -effectiveCapacitance / (own + effectiveCapacitance);
  return {
    cableCapacitance: cableF,
    effectiveCapacitance,
    primaryDetune: detuneHz(x, x.cableLength),
    gainChange: gains.cable,
    slugChange,
    slugMargin: x.slugRange + slugChange,
    trimmerChange: -effectiveCapacitance,
    trimmerMargin: x.trimmerRange - effectiveCapacitance,
    gainChangeAfterRepeak: gains.repeaked,
    compensatingInductance: inductanceToResonateH(f, cableF),
    compensatingLoss: gains.compensated,
    coilParallelResistance: parallelResistanceOhm(f, cableF, x.coilQ) * (1 + x.coilError),
    trapFrequency: f * Math.sqrt(cableF / (cableF + x.couplingCapacitance)),
    lumpedError: lumpedErrorRatio(f, x.cableLength, x.velocityFactor),
    lumpedLimit: lumpedLimitM(f, x.velocityFactor, 0.01),
  };
}
