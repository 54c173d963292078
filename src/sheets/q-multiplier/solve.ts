import { notReached, orNone } from "../../ask/axes";
import { noneOf } from "../../ask/declare";
import type { NoValue } from "../../ask/results";
import { rootBetween } from "../../numerics/root";
import { amAudioBandwidthHz, amAudioRatio } from "../../physics/am-audio";
import { noiseBandwidthHz } from "../../physics/noise-band";
import { NullLoad } from "../../physics/null-circuits";
import { type Peak, rejectionDb, Skirts } from "../../physics/passband";
import type { OscillationPoint } from "../../physics/q-multiplier";
import { Plate } from "../inputs/multiplier-plate";
import type { MultiplierInputs } from "./ask";
import { margins } from "./margins";
import { rejectResults } from "./null";

const tooNarrow: NoValue = { none: "the tank alone already leaves less AM audio than asked for" };
const rejectOnly = noneOf(["nullFrequency", "nullDepth", "nullWidth"], "peak function");
const oscillates = noneOf(
  [
    "multipliedQ",
    "peakFrequency",
    "width6dB",
    "width60dB",
    "gainChange",
    "gainAtPeak",
    "audioBandwidthAm",
    "noiseImprovementAm",
    "noiseImprovementSsb",
    "noiseImprovementCw",
    "rejection5kHz",
  ],
  "it oscillates",
);
const db = (p: number): number => 10 * Math.log10(p);

/** Middle and width of the -6 dB points: what distances count from, before as with the accessory. The middle is the IF where they aren't reached. */
function middleOf(skirts: Skirts, f: number): { readonly hz: number; readonly widthHz: number } {
  const low = skirts.crossingHz(6, -1);
  const high = skirts.crossingHz(6, 1);
  return { hz: Number.isFinite(low + high) ? (low + high) / 2 : f, widthHz: high - low };
}

/** What the strip passes by itself: what the accessory is held against. */
interface Bare {
  readonly peak: Peak;
  readonly gain: number;
  readonly rejectionDb: number;
  readonly noiseAm: number;
  readonly noiseSsb: number;
  readonly noiseCw: number;
}

/**
 * What a Q multiplier gains on a strip; it holds what draw after draw works with.
 *
 * @returns `solve`: from plain inputs (SI; regeneration is the part of the oscillation point that the control is set to) results, SI and dB;
 *   what does not apply to the chosen function has no value and says so. `fill`: |H|^2 with the accessory, then before, of what was solved last,
 *   relative to each one's own peak (peak) or to the peak before (reject)
 * @source src/physics/q-multiplier.ts, null-circuits.ts, passband.ts
 */
export function multiplierSolver() {
  const plate = new Plate();
  const nul = new NullLoad();
  const skirts = new Skirts();
  let topBefore = 1;
  let topWith = 1;
  const solve = (x: MultiplierInputs) => {
    const f = x.strip.intermediateFrequency;
    plate.load(x);
    const peak = plate.peak(f);
    const middle = middleOf(skirts.of(plate, peak), f);
    topBefore = peak.power;
    const before = {
      width6dBBefore: orNone(middle.widthHz, notReached.none),
      audioBefore: orNone(amAudioBandwidthHz(plate, middle.hz), "above 30 kHz"),
      rejectionBefore: rejectionDb(plate, middle.hz, 5000, peak.power),
    };
    if (x.function === "reject") return { ...before, ...rejectResults(x, nul, plate) };
    const bare = {
      peak,
      gain: plate.at(f),
      rejectionDb: before.rejectionBefore,
      noiseAm: noiseBandwidthHz(plate, peak),
      noiseSsb: plate.ssbNoise(middle.hz, x),
      noiseCw: plate.cwNoise(peak, x),
    };
    return inOne(before, onAm(plate, skirts, x, bare), margins(plate, x), atSetting(x, bare));
  };
  const atSetting = (x: MultiplierInputs, bare: Bare) => {
    const f = x.strip.intermediateFrequency;
    const start = plate.hang(x, f + x.tuningOffset, Math.min(0.9999, x.regeneration));
    const peak = plate.peak(f);
    topWith = peak.power;
    if (x.regeneration >= 1) return oscillates;
    if (x.regeneration > 0.9999) plate.regenerate(x.regeneration);
    const here = x.regeneration > 0.9999 ? plate.peak(f) : peak;
    return settingResults(plate, skirts.of(plate, here), x, { bare, peak: here, start });
  };

  const fill = (x: MultiplierInputs, state: "before" | "after", axis: Float64Array, into: Float64Array): void => {
    if (state === "after" && x.function === "reject") {
      for (let i = 0; i < axis.length; i++) into[i] = nul.at(axis[i], plate.strip) / topBefore;
      return;
    }
    if (state === "before") plate.bare();
    else plate.regenerate(Math.min(0.9999, x.regeneration));
    plate.fillPower(axis, into, axis.length);
    const top = state === "before" ? topBefore : topWith;
    for (let i = 0; i < axis.length; i++) into[i] /= top;
  };
  return { solve, fill };
}

type Solved = number | NoValue;
type Before = Readonly<Record<"width6dBBefore" | "audioBefore" | "rejectionBefore", Solved>>;
/** All results in one, name by name: to join objects by their names takes longer than to work them out. */
const inOne = (
  b: Before,
  am: ReturnType<typeof onAm>,
  m: ReturnType<typeof margins>,
  s: Readonly<Record<keyof typeof oscillates, Solved>>,
) => ({
  width6dBBefore: b.width6dBBefore,
  audioBefore: b.audioBefore,
  rejectionBefore: b.rejectionBefore,
  multipliedQ: s.multipliedQ,
  peakFrequency: s.peakFrequency,
  width6dB: s.width6dB,
  width60dB: s.width60dB,
  gainChange: s.gainChange,
  gainAtPeak: s.gainAtPeak,
  audioBandwidthAm: s.audioBandwidthAm,
  noiseImprovementAm: s.noiseImprovementAm,
  noiseImprovementSsb: s.noiseImprovementSsb,
  noiseImprovementCw: s.noiseImprovementCw,
  rejection5kHz: s.rejection5kHz,
  amSetting: am.amSetting,
  amNoiseGainUsable: am.amNoiseGainUsable,
  amRejectionGainUsable: am.amRejectionGainUsable,
  criticalConductance: m.criticalConductance,
  seriesResistance: m.seriesResistance,
  reachesOscillation: m.reachesOscillation,
  regenerationMargin: m.regenerationMargin,
  oscillationAcrossTuning: m.oscillationAcrossTuning,
  survivingRegeneration: m.survivingRegeneration,
  nullFrequency: rejectOnly.nullFrequency,
  nullDepth: rejectOnly.nullDepth,
  nullWidth: rejectOnly.nullWidth,
});
interface AtSetting {
  readonly bare: Bare;
  readonly peak: Peak;
  readonly start: OscillationPoint;
}
function settingResults(plate: Plate, skirts: Skirts, x: MultiplierInputs, { bare, peak, start }: AtSetting) {
  const f = x.strip.intermediateFrequency;
  const middle = middleOf(skirts, f);
  return {
    multipliedQ: start.slopeS / (2 * start.criticalS * (1 - x.regeneration)),
    peakFrequency: peak.hz,
    width6dB: orNone(middle.widthHz, notReached.none),
    width60dB: orNone(skirts.widthHz(60), notReached.none),
    gainChange: db(plate.at(f) / bare.gain),
    gainAtPeak: db(peak.power / bare.peak.power),
    audioBandwidthAm: orNone(amAudioBandwidthHz(plate, middle.hz), "above 30 kHz"),
    noiseImprovementAm: db(bare.noiseAm / noiseBandwidthHz(plate, peak)),
    noiseImprovementSsb: db(bare.noiseSsb / plate.ssbNoise(middle.hz, x)),
    noiseImprovementCw: db(bare.noiseCw / plate.cwNoise(peak, x)),
    rejection5kHz: rejectionDb(plate, middle.hz, 5000, peak.power),
  };
}

/** What is gained with the AM audio asked for kept, the tank on the IF. */
function onAm(plate: Plate, skirts: Skirts, x: MultiplierInputs, bare: Bare) {
  const f = x.strip.intermediateFrequency;
  const amSetting = usableOnAm(plate, x, f);
  if (amSetting === undefined) return { amSetting: tooNarrow, amNoiseGainUsable: tooNarrow, amRejectionGainUsable: tooNarrow };
  const peak = plate.peak(f);
  return {
    amSetting,
    amNoiseGainUsable: db(bare.noiseAm / noiseBandwidthHz(plate, peak)),
    amRejectionGainUsable: rejectionDb(plate, middleOf(skirts.of(plate, peak), f).hz, 5000, peak.power) - bare.rejectionDb,
  };
}
/** Regeneration at which AM audio still reaches the floor, the tank on the IF; undefined where the tank alone is narrower than that. */
function usableOnAm(plate: Plate, x: MultiplierInputs, f: number): number | undefined {
  plate.hang(x, f, 0);
  const over = (part: number): number => {
    plate.regenerate(part);
    return amAudioRatio(plate, f, x.audioFloor) - Math.SQRT1_2;
  };
  const without = over(0);
  if (!(without >= 0)) return undefined;
  const setting = rootBetween(over, 0, 1, 1e-4, [without, over(1)]);
  plate.regenerate(setting);
  return setting;
}

/**
 * Steps of regeneration from none to just under oscillation, at the best values.
 *
 * @param x plain inputs, SI
 * @returns one row each: setting, Q, width and AM audio in Hz, gain, rejection and noise gained in dB; NaN where there is no value
 * @source multiplierSolver
 */
export function regenerationSteps(x: MultiplierInputs): readonly (readonly number[])[] {
  const { solve } = multiplierSolver();
  return [0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.98].map((regeneration) => {
    const y = solve({ ...x, function: "peak", regeneration: Math.max(1e-6, regeneration) });
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
