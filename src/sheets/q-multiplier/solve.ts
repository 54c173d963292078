import { notReached, orNone } from "../../ask/axes";
import type { NoValue } from "../../ask/results";
import { areApart } from "../../numerics/apart";
import { type StripModel, StripResponse } from "../../physics/if-strip";
import { NullLoad, nullFigures } from "../../physics/null-circuits";
import {
  amAudioBandwidthHz,
  amAudioRatio,
  crossingHz,
  noiseBandwidthHz,
  type Peak,
  peakOf,
  powerIntegralHz,
  type Response,
  rejectionDb,
  widthHz,
} from "../../physics/passband";
import { feedbackConductanceS, oscillationPoint, seriesResistanceOhm, TankLoad } from "../../physics/q-multiplier";

export interface MultiplierInputs {
  readonly strip: StripModel;
  readonly function: "peak" | "reject";
  readonly nullCircuit: "shunt" | "inverse-feedback" | "subtraction";
  readonly tankCapacitance: number;
  readonly tankQ: number;
  readonly couplingCapacitance: number;
  readonly cableLength: number;
  readonly cableCapacitancePerLength: number;
  readonly coilQ: number;
  readonly regeneration: number;
  readonly tuningOffset: number;
  readonly tuningRange: number;
  readonly dividerRatio: number;
  readonly transconductance: number;
  readonly amplificationFactor: number;
  readonly lineChange: number;
  readonly gmLineExponent: number;
  readonly nullCoupling: number;
  readonly nullLoopGain: number;
  readonly nullBalanceError: number;
  readonly audioFloor: number;
  readonly audioLow: number;
  readonly audioHigh: number;
  readonly cwPitch: number;
}

/** The strip alone, or with the tank on its first plate. */
class Plate implements Response {
  re = 0;
  im = 0;
  readonly strip = new StripResponse();
  readonly tank = new TankLoad();
  on = false;
  at(hz: number): number {
    if (!this.on) return this.strip.at(hz);
    this.tank.at(hz);
    return this.strip.at(hz, this.tank.re, this.tank.im);
  }
  complexAt(hz: number): void {
    if (this.on) {
      this.tank.at(hz);
      this.strip.complexAt(hz, this.tank.re, this.tank.im);
    } else this.strip.complexAt(hz);
    this.re = this.strip.re;
    this.im = this.strip.im;
  }
  fill(axis: Float64Array, into: Float64Array, over: number): void {
    this.strip.fill(axis, into, this.on ? this.tank.asSeries() : undefined);
    for (let i = 0; i < into.length; i++) into[i] /= over;
  }
}
const plate = new Plate();
const nul = new NullLoad();
const peakOnly: NoValue = { none: "reject function" };
const rejectOnly: NoValue = { none: "peak function" };
const oscillates: NoValue = { none: "it oscillates" };
const feedback = { dividerRatio: 0, transconductanceS: 0, amplificationRatio: 0 };

function loadPlate(x: MultiplierInputs, tunedHz: number): void {
  const f = x.strip.intermediateFrequency;
  plate.tank.load(
    {
      tankCapacitance: x.tankCapacitance,
      tankQ: x.tankQ,
      couplingCapacitance: x.couplingCapacitance,
      cableCapacitance: x.cableLength * x.cableCapacitancePerLength,
      cableCoilQ: x.coilQ,
    },
    tunedHz,
    f,
  );
}

/**
 * SSB noise for one unit of signal: speech spread evenly over the stated audio band on the upper side of the beat oscillator, against white
 * noise of both sides in that band. The beat oscillator sits half the band below the pass band's middle. At best, one side's noise goes: 3 dB.
 */
function ssbNoise(middleHz: number, x: MultiplierInputs): number {
  const beat = middleHz - (x.audioLow + x.audioHigh) / 2;
  const wanted = powerIntegralHz(plate, middleHz, beat + x.audioLow, beat + x.audioHigh);
  const other = powerIntegralHz(plate, middleHz, beat - x.audioHigh, beat - x.audioLow);
  return (wanted + other) / wanted;
}

/** CW noise for one unit of signal: a carrier on the peak, one pitch above the beat oscillator, against noise of both sides in the audio band. */
function cwNoise(peak: Peak, x: MultiplierInputs): number {
  const beat = peak.hz - x.cwPitch;
  const noise =
    powerIntegralHz(plate, peak.hz, beat + x.audioLow, beat + x.audioHigh) +
    powerIntegralHz(plate, peak.hz, beat - x.audioHigh, beat - x.audioLow);
  return noise / peak.power;
}

/** Puts the tank on the plate with regeneration as a part of the oscillation point; returns that point's conductance. */
function hang(x: MultiplierInputs, tunedHz: number, part: number): number {
  loadPlate(x, tunedHz);
  const start = oscillationPoint(plate.tank, plate.strip, tunedHz);
  plate.tank.regenerationS = part * start.criticalS;
  plate.on = true;
  startHz = start.hz;
  slopeS = start.slopeS;
  return start.criticalS;
}
let startHz = 0;
let slopeS = 0;
const oneHint = [0];
const twoHints = [0, 0];
const barePeak = (f: number): Peak => {
  plate.on = false;
  oneHint[0] = f;
  return peakOf(plate, oneHint);
};
const fittedPeak = (f: number): Peak => {
  twoHints[0] = startHz;
  twoHints[1] = f;
  return peakOf(plate, twoHints);
};
const db = (p: number): number => 10 * Math.log10(p);

/** Middle and width of the -6 dB points: what distances count from, before as with the accessory. The middle is the IF where they aren't reached. */
function middleOf(peak: Peak, f: number): { readonly hz: number; readonly widthHz: number } {
  const low = crossingHz(plate, peak, 6, -1);
  const high = crossingHz(plate, peak, 6, 1);
  return { hz: Number.isFinite(low + high) ? (low + high) / 2 : f, widthHz: high - low };
}

/**
 * What a Q multiplier gains on this strip.
 *
 * @param x plain inputs, SI; regeneration is the part of the oscillation point that the control is set to
 * @returns results, SI and dB; what does not apply to the chosen function has no value and says so
 * @source src/physics/q-multiplier.ts, null-circuits.ts, passband.ts
 */
export function solveMultiplier(x: MultiplierInputs) {
  const f = x.strip.intermediateFrequency;
  plate.strip.load(x.strip);
  const base = barePeak(f);
  const middle = middleOf(base, f);
  const before = {
    width6dBBefore: orNone(middle.widthHz, notReached.none),
    audioBefore: orNone(amAudioBandwidthHz(plate, middle.hz), "above 30 kHz"),
    rejectionBefore: rejectionDb(plate, middle.hz, 5000, base.power),
  };
  return x.function === "reject"
    ? { ...before, ...rejectResults(x, f + x.tuningOffset) }
    : { ...before, ...peakResults(x, f, base, middle.hz, before.rejectionBefore) };
}

/** Regeneration at which AM audio still reaches the floor, the tank on the IF; undefined where the tank alone is narrower than that. */
function usableOnAm(x: MultiplierInputs, f: number): number | undefined {
  const critical = hang(x, f, 0);
  const reaches = (part: number): boolean => {
    plate.tank.regenerationS = part * critical;
    return amAudioRatio(plate, f, x.audioFloor) >= Math.SQRT1_2;
  };
  if (!reaches(0)) return undefined;
  let yes = 0;
  let no = 1;
  while (areApart(yes, no, 1e-4)) {
    const mid = (yes + no) / 2;
    if (reaches(mid)) yes = mid;
    else no = mid;
  }
  plate.tank.regenerationS = yes * critical;
  return yes;
}

/**
 * The highest part of the oscillation point that neither the tuning nor the tube's rise takes into oscillation: the series resistance that the
 * risen tube would just oscillate with at the worst end, and what the tube makes of it as it is.
 */
function survivingPart(criticalS: number, across: number, rise: number): number {
  const risen = { ...feedback, transconductanceS: feedback.transconductanceS * rise };
  const ohm = Math.max(0, seriesResistanceOhm(risen, across * criticalS));
  return Math.min(across, feedbackConductanceS(feedback, ohm) / criticalS);
}

const tooNarrow: NoValue = { none: "the tank alone already leaves less AM audio than asked for" };

function peakResults(x: MultiplierInputs, f: number, base: Peak, baseMiddleHz: number, rejectionBefore: number) {
  const tuned = f + x.tuningOffset;
  const baseGain = plate.at(f);
  const bareAm = noiseBandwidthHz(plate, base);
  const bareSsb = ssbNoise(baseMiddleHz, x);
  const bareCw = cwNoise(base, x);
  const am = usableOnAm(x, f);
  const amPeak = am === undefined ? undefined : fittedPeak(f);
  const amGain = amPeak ? db(bareAm / noiseBandwidthHz(plate, amPeak)) : tooNarrow;
  const amRejection = amPeak ? rejectionDb(plate, middleOf(amPeak, f).hz, 5000, amPeak.power) - rejectionBefore : tooNarrow;
  feedback.dividerRatio = x.dividerRatio;
  feedback.transconductanceS = x.transconductance;
  feedback.amplificationRatio = x.amplificationFactor;
  const low = hang(x, tuned - x.tuningRange, 0);
  const high = hang(x, tuned + x.tuningRange, 0);
  const critical = hang(x, tuned, x.regeneration);
  const across = Math.min(low / critical, high / critical, 1);
  const series = seriesResistanceOhm(feedback, x.regeneration * critical);
  const surviving = survivingPart(critical, across, (1 + x.lineChange) ** x.gmLineExponent);
  const q = slopeS / (2 * critical * (1 - x.regeneration));
  const peak = fittedPeak(f);
  const middle = middleOf(peak, f);
  const none = x.regeneration < 1 ? undefined : oscillates;
  const at = {
    multipliedQ: none ?? q,
    peakFrequency: none ?? peak.hz,
    width6dB: none ?? orNone(middle.widthHz, notReached.none),
    width60dB: none ?? orNone(widthHz(plate, peak, 60), notReached.none),
    gainChange: none ?? db(plate.at(f) / baseGain),
    gainAtPeak: none ?? db(peak.power / base.power),
    audioBandwidthAm: none ?? orNone(amAudioBandwidthHz(plate, middle.hz), "above 30 kHz"),
    noiseImprovementAm: none ?? db(bareAm / noiseBandwidthHz(plate, peak)),
    noiseImprovementSsb: none ?? db(bareSsb / ssbNoise(middle.hz, x)),
    noiseImprovementCw: none ?? db(bareCw / cwNoise(peak, x)),
    rejection5kHz: none ?? rejectionDb(plate, middle.hz, 5000, peak.power),
  };
  plate.on = false;
  return {
    ...at,
    amSetting: am ?? tooNarrow,
    amNoiseGainUsable: amGain,
    amRejectionGainUsable: amRejection,
    criticalConductance: critical,
    seriesResistance: x.regeneration === 0 ? off : series >= 0 ? series : cannotReach,
    reachesOscillation: feedbackConductanceS(feedback, 0) / critical,
    regenerationMargin: x.regeneration === 0 ? off : 1 / x.regeneration - 1,
    oscillationAcrossTuning: x.regeneration === 0 ? off : across / x.regeneration - 1,
    survivingRegeneration: surviving,
    nullFrequency: rejectOnly,
    nullDepth: rejectOnly,
    nullWidth: rejectOnly,
  };
}
const off: NoValue = { none: "regeneration is off" };
const cannotReach: NoValue = { none: "the tube cannot regenerate that far" };

function rejectResults(x: MultiplierInputs, tuned: number) {
  nul.load(
    {
      circuit: x.nullCircuit,
      tankCapacitance: x.tankCapacitance,
      tankQ: x.tankQ,
      regeneration: Math.min(0.999, x.regeneration),
      couplingCapacitance: x.nullCoupling,
      loopGain: x.nullLoopGain,
      balanceError: x.nullBalanceError,
    },
    tuned,
    plate.strip,
  );
  const n = nullFigures(nul, plate.strip, tuned);
  return {
    multipliedQ: x.regeneration < 1 ? x.tankQ / (1 - x.regeneration) : oscillates,
    peakFrequency: peakOnly,
    width6dB: peakOnly,
    width60dB: peakOnly,
    gainChange: peakOnly,
    gainAtPeak: peakOnly,
    audioBandwidthAm: peakOnly,
    noiseImprovementAm: peakOnly,
    noiseImprovementSsb: peakOnly,
    noiseImprovementCw: peakOnly,
    rejection5kHz: peakOnly,
    amSetting: peakOnly,
    amNoiseGainUsable: peakOnly,
    amRejectionGainUsable: peakOnly,
    criticalConductance: peakOnly,
    seriesResistance: peakOnly,
    reachesOscillation: peakOnly,
    regenerationMargin: x.regeneration === 0 ? off : 1 / x.regeneration - 1,
    oscillationAcrossTuning: peakOnly,
    survivingRegeneration: peakOnly,
    nullFrequency: n.hz,
    nullDepth: n.depthDb,
    nullWidth: orNone(n.widthHz, "3 dB are not taken away"),
  };
}

/** Fills |H|^2 before and with the accessory, relative to each one's own peak (peak) or to the peak before (reject). */
export function fillMultiplier(
  x: MultiplierInputs,
  axis: Float64Array,
  into: { readonly before: Float64Array; readonly after: Float64Array },
): void {
  const f = x.strip.intermediateFrequency;
  const tuned = f + x.tuningOffset;
  plate.strip.load(x.strip);
  const top = barePeak(f).power;
  plate.fill(axis, into.before, top);
  if (x.function === "reject") {
    for (let i = 0; i < axis.length; i++) into.after[i] = nul.at(axis[i], plate.strip) / top;
    return;
  }
  hang(x, tuned, Math.min(0.9999, x.regeneration));
  const own = fittedPeak(f).power;
  plate.fill(axis, into.after, own);
  plate.on = false;
}

/** Steps of regeneration from none to just under oscillation, at the best values: one row each. */
export function regenerationSteps(x: MultiplierInputs): readonly (readonly number[])[] {
  return [0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.98].map((regeneration) => {
    const y = solveMultiplier({ ...x, function: "peak", regeneration: Math.max(1e-6, regeneration) });
    return [
      regeneration,
      y.multipliedQ,
      y.width6dB,
      y.audioBandwidthAm,
      y.gainChange,
      y.rejection5kHz,
      y.noiseImprovementAm,
      y.noiseImprovementSsb,
      y.noiseImprovementCw,
    ].map((v) => (typeof v === "number" ? v : Number.NaN));
  });
}
