import {
  cascadeFactor,
  dbOf,
  factorForLoss,
  factorOfLevel,
  firstStageFactor,
  gainForLoss,
  levelForFactorV,
  levels,
  lossAgainstWorldDb,
  modes,
  ratioOf,
  ratios,
  type SensitivityDefinition,
} from "../../physics/noise";
import { type Environment, externalNoiseDb } from "../../standards/external-noise";
import { tubeNoise, tubeNoiseOf } from "../../standards/tube-noise";

export const notStated = "not stated";
export const ratioWords = [notStated, ...ratios] as const;
export const modeWords = [notStated, ...modes] as const;
export const levelWords = [notStated, ...levels] as const;
export const asStated = "as stated";
export const rfTubes = [asStated, "none", ...tubeNoise.filter((t) => t.use === "amplifier").map((t) => t.type)] as const;
export const mixerTubes = [asStated, ...tubeNoise.filter((t) => t.use === "mixer").map((t) => t.type)] as const;

export interface SensitivityInputs {
  readonly statedRatio: (typeof ratioWords)[number];
  readonly statedMode: (typeof modeWords)[number];
  readonly levelIs: (typeof levelWords)[number];
  readonly place: Environment;
  readonly before: "nothing" | "a converter or preamplifier";
  readonly rfTube: string;
  readonly mixerTube: string;
  readonly level: number;
  readonly ratioDb: number;
  readonly modulationDepth: number;
  readonly noiseBandwidth: number;
  readonly sourceResistance: number;
  readonly listenAt: number;
  readonly worldOff: number;
  readonly rfNoise: number;
  readonly rfGain: number;
  readonly mixerNoise: number;
  readonly tankResistance: number;
  readonly stageResistance: number;
  readonly inputLoss: number;
  readonly aheadNoise: number;
  readonly aheadGain: number;
}
/** What a definition lacks, by the input that would say it. */
export const lacking = (x: SensitivityInputs): readonly string[] => [
  ...(x.statedRatio === notStated ? ["statedRatio"] : []),
  ...(x.statedMode === notStated ? ["statedMode"] : []),
  ...(x.levelIs === notStated ? ["levelIs"] : []),
  ...(x.noiseBandwidth > 0 ? [] : ["noiseBandwidth"]),
  ...(x.sourceResistance > 0 ? [] : ["sourceResistance"]),
];
/** The definition as said; where nothing is said that of a usual AM figure, for a prediction alone. */
export const definitionOf = (x: SensitivityInputs): SensitivityDefinition => ({
  ratio: x.statedRatio === notStated ? "(S+N)/N" : x.statedRatio,
  mode: x.statedMode === notStated ? "AM" : x.statedMode,
  level: x.levelIs === notStated ? "p.d." : x.levelIs,
  db: x.ratioDb,
  depth: x.modulationDepth,
  bandwidthHz: x.noiseBandwidth > 0 ? x.noiseBandwidth : 6000,
  sourceOhm: x.sourceResistance > 0 ? x.sourceResistance : 50,
});
export const sayDefinition = (d: SensitivityDefinition): string =>
  `${Number(d.db.toFixed(1))} dB ${d.ratio}, ${d.mode === "AM" ? `AM ${Math.round(d.depth * 100)} %` : d.mode}, ${Number((d.bandwidthHz / 1000).toFixed(2))} kHz wide, ${d.level} in ${Math.round(d.sourceOhm)} Ω`;

/** Noise resistance of a tube that was named, ohm. */
const named = (said: string, use: "amplifier" | "mixer", stated: number): number =>
  said === asStated ? stated : (tubeNoiseOf(said, use)?.ohm ?? tubeNoise.find((t) => t.type === said)?.ohm ?? stated);

/**
 * Noise factor of the receiver by its first tubes and circuits, matched to the antenna for least noise.
 *
 * @source Friis, with the first stage of physics/noise.ts
 */
export function predictedFactor(x: SensitivityInputs): number {
  const mixer = named(x.mixerTube, "mixer", x.mixerNoise);
  const grid = x.rfTube === "none" ? mixer : named(x.rfTube, "amplifier", x.rfNoise) + (mixer + x.stageResistance) / x.rfGain ** 2;
  return cascadeFactor([
    { factor: ratioOf(x.inputLoss), gain: ratioOf(-x.inputLoss) },
    { factor: firstStageFactor(0, x.tankResistance, grid), gain: 1 },
  ]);
}
export interface Noise {
  readonly predicted: number;
  readonly measured: number | undefined;
  /** what the receiver does: measured where it was, else predicted */
  readonly receiver: number;
  readonly world: number;
  /** with what is put in front */
  readonly all: number;
}
export function noiseOf(x: SensitivityInputs): Noise {
  const predicted = predictedFactor(x);
  const measured = x.level > 0 ? factorOfLevel(x.level, definitionOf(x)) : undefined;
  const receiver = measured ?? predicted;
  const ahead = { factor: ratioOf(x.aheadNoise), gain: ratioOf(x.aheadGain) };
  return {
    predicted,
    measured,
    receiver,
    world: ratioOf(externalNoiseDb(x.listenAt, x.place) + x.worldOff),
    all: x.before === "nothing" ? receiver : cascadeFactor([ahead, { factor: receiver, gain: 1 }]),
  };
}
/** Gain in front that costs no more than these decibels, and the loss that is left with ever so much. */
export const gainNeeded = (x: SensitivityInputs, n: Noise, lossDb: number): number | undefined =>
  gainForLoss(n.world, ratioOf(x.aheadNoise), n.receiver, lossDb);
export const leastLossDb = (x: SensitivityInputs, n: Noise): number => lossAgainstWorldDb(n.world, ratioOf(x.aheadNoise));
export { dbOf, factorForLoss, levelForFactorV, lossAgainstWorldDb };
