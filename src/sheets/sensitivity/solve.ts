import type { ResultsOf } from "../../ask/declare";
import type { NoValue } from "../../ask/results";
import {
  cascadeFactor,
  dbOf,
  factorForLoss,
  factorOfLevel,
  firstStageFactor,
  gainForLoss,
  levelForFactorV,
  lossAgainstWorldDb,
  ratioOf,
  type SensitivityDefinition,
} from "../../physics/noise";
import { externalNoiseDb } from "../../standards/external-noise";
import { tubeNoise, tubeNoiseOf } from "../../standards/tube-noise";
import type { Asked, ask } from "./ask";

/** One decibel of noise that the set adds: below it the world is the limit, above three the set is. Common practice, no source. */
export const worldLimitDb = 1;
export const setLimitDb = 3;
/** What a definition or a tube is where nobody said it. */
const notStated = "not stated";
const asStated = "as stated";
/**
 * What a definition lacks, by the input that would say it.
 *
 * @param x inputs
 * @returns each input that is not stated, and what stands there
 * @source house rule: a level without all five is no sensitivity
 */
export function lackingIn(x: Asked): readonly (readonly [input: keyof Asked & string, read: string])[] {
  const words = (["statedRatio", "statedMode", "levelIs"] as const).filter((n) => x[n] === notStated);
  const figures = (["noiseBandwidth", "sourceResistance"] as const).filter((n) => !(x[n] > 0));
  return [...words.map((n) => [n, notStated] as const), ...figures.map((n) => [n, "0"] as const)];
}
/**
 * The definition as said; where nothing is said that of a usual AM figure, for a prediction alone.
 *
 * @param x inputs
 * @returns definition: dB, ratio of depth, Hz, ohm
 * @source common practice, no source
 */
export const definitionOf = (x: Asked): SensitivityDefinition => ({
  ratio: x.statedRatio === notStated ? "(S+N)/N" : x.statedRatio,
  mode: x.statedMode === notStated ? "AM" : x.statedMode,
  level: x.levelIs === notStated ? "p.d." : x.levelIs,
  db: x.ratioDb,
  depth: x.modulationDepth,
  bandwidthHz: x.noiseBandwidth > 0 ? x.noiseBandwidth : 6000,
  sourceOhm: x.sourceResistance > 0 ? x.sourceResistance : 50,
});
/** A definition in words, such as `10 dB (S+N)/N, AM 30 %, 6 kHz wide, p.d. in 50 Ω`. */
export const sayDefinition = (d: SensitivityDefinition): string =>
  `${Number(d.db.toFixed(1))} dB ${d.ratio}, ${d.mode === "AM" ? `AM ${Math.round(d.depth * 100)} %` : d.mode}, ${Number((d.bandwidthHz / 1000).toFixed(2))} kHz wide, ${d.level} in ${Math.round(d.sourceOhm)} Ω`;

/** Noise resistance of a tube that was named, ohm. Source: standards/tube-noise.ts. */
const named = (said: string, use: "amplifier" | "mixer", stated: number): number =>
  said === asStated ? stated : (tubeNoiseOf(said, use)?.ohm ?? tubeNoise.find((t) => t.type === said)?.ohm ?? stated);

/**
 * Noise factor of the receiver by its first tubes and circuits, matched to the antenna for least noise.
 *
 * @param x inputs
 * @returns ratio
 * @source Friis, with the first stage of physics/noise.ts
 */
export function predictedFactor(x: Asked): number {
  const mixer = named(x.mixerTube, "mixer", x.mixerNoise);
  const grid = x.rfTube === "none" ? mixer : named(x.rfTube, "amplifier", x.rfNoise) + (mixer + x.stageResistance) / x.rfGain ** 2;
  return cascadeFactor([
    { factor: ratioOf(x.inputLoss), gain: ratioOf(-x.inputLoss) },
    { factor: firstStageFactor(0, x.tankResistance, grid), gain: 1 },
  ]);
}
interface Noise {
  readonly predicted: number;
  readonly measured: number | undefined;
  /** what the receiver does: measured where it was, else predicted */
  readonly receiver: number;
  readonly world: number;
  /** with what is put in front */
  readonly all: number;
}
/**
 * Noise factors of the receiver, of the world, and of all together.
 *
 * @param x inputs
 * @returns ratios over k T0
 * @source Friis; ITU-R P.372
 */
export function noiseOf(x: Asked): Noise {
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
/**
 * What the set does at the frequency to listen on.
 *
 * @param x inputs
 * @param n its noise factors, ratios
 * @returns results in SI
 * @source Friis; ITU-R P.372
 */
export function figuresOf(x: Asked, n: Noise): ResultsOf<typeof ask> {
  const d = definitionOf(x);
  const spent: NoValue = { none: "its own noise alone costs that much already: no gain helps" };
  const ahead = ratioOf(x.aheadNoise);
  // gain in front that costs no more than these decibels, and the loss that is left with ever so much of it
  const gainFor = (lossDb: number): number | NoValue => {
    const gain = gainForLoss(n.world, ahead, n.receiver, lossDb);
    return gain === undefined ? spent : dbOf(gain);
  };
  const volts = levelForFactorV(n.receiver, d);
  const across = volts / (d.level === "EMF" ? 2 : 1);
  return {
    receiverNoise: dbOf(n.receiver),
    predictedNoise: dbOf(n.predicted),
    levelAsked: volts,
    levelDbm: dbOf((across * across) / d.sourceOhm / 1e-3),
    worldNoise: dbOf(n.world),
    lossNow: lossAgainstWorldDb(n.world, n.all),
    lossWithout: lossAgainstWorldDb(n.world, n.receiver),
    noiseForOneDb: dbOf(factorForLoss(n.world, worldLimitDb)),
    gainForOneDb: gainFor(worldLimitDb),
    gainEnough: gainFor(lossAgainstWorldDb(n.world, ahead) + 0.1),
  };
}
