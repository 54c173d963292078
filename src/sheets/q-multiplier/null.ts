import { orNone } from "../../ask/axes";
import { noneOf } from "../../ask/declare";
import { type NullLoad, nullFigures } from "../../physics/null-circuits";
import type { Plate } from "../inputs/multiplier-plate";
import type { MultiplierInputs } from "./ask";

const peakNames = [
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
  "amSetting",
  "amNoiseGainUsable",
  "amRejectionGainUsable",
  "criticalConductance",
  "seriesResistance",
  "reachesOscillation",
  "oscillationAcrossTuning",
  "survivingRegeneration",
] as const;
const peakOnly = noneOf(peakNames, "reject function");

/**
 * What the accessory takes away as a null.
 *
 * @param x plain inputs, SI
 * @param nul the null circuit; loaded here
 * @param plate the strip, loaded, with nothing on it
 * @returns figures of the null, SI and dB; what belongs to a peak has no value and says so
 * @source src/physics/null-circuits.ts
 */
export function rejectResults(x: MultiplierInputs, nul: NullLoad, { strip }: Plate) {
  const tunedHz = x.strip.intermediateFrequency + x.tuningOffset;
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
    tunedHz,
    strip,
  );
  const n = nullFigures(nul, strip, tunedHz);
  return {
    ...peakOnly,
    multipliedQ: x.regeneration < 1 ? x.tankQ / (1 - x.regeneration) : { none: "it oscillates" },
    regenerationMargin: x.regeneration === 0 ? { none: "regeneration is off" } : 1 / x.regeneration - 1,
    nullFrequency: n.hz,
    nullDepth: n.depthDb,
    nullWidth: orNone(n.widthHz, "the null takes off less than 3 dB"),
  };
}
