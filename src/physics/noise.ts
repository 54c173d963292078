/** Noise of a receiver: its noise factor from tubes and circuits, what signal it asks for, and what external noise leaves of it. */
import { needPositive } from "./domain";

/** k T0, W/Hz: Boltzmann constant 1.380649e-23 J/K (SI 2019, exact) times 290 K. */
export const kT0WPerHz = 1.380649e-23 * 290;
export const dbOf = (ratio: number): number => 10 * Math.log10(ratio);
export const ratioOf = (db: number): number => 10 ** (db / 10);

/**
 * Noise factor of stages in a row: F1 + (F2 - 1)/G1 + (F3 - 1)/(G1 G2) ...
 *
 * @param stages noise factor (ratio, 1 or more) and available power gain (ratio, above 0), from the antenna on
 * @returns ratio
 * @source Friis, Proc. IRE, July 1944 (formula from memory, examples read)
 */
export function cascadeFactor(stages: readonly { readonly factor: number; readonly gain: number }[]): number {
  let gain = 1;
  let sum = 1;
  for (const s of stages) {
    sum += (s.factor - 1) / gain;
    gain *= s.gain;
  }
  return sum;
}

/** Shot noise against thermal noise: q/(2 k T0), 1/V. */
const shotPerV = 1.602176634e-19 / (2 * kT0WPerHz);
/** Equivalent noise resistance of a triode, ohm. Source: 2.5/gm, as quoted from Thompson, North and Harris (read at second hand). */
export const triodeNoiseOhm = (transconductance: number): number => 2.5 / transconductance;
/**
 * Equivalent noise resistance of a pentode: plate's share of the cathode current times (2.5/gm + 20 Ig2/gm^2).
 *
 * @param plateA plate current, A
 * @param screenA screen current, A
 * @param transconductance S
 * @returns ohm
 * @source Harris 1941, as quoted from Spangenberg (read at second hand)
 */
export const pentodeNoiseOhm = (plateA: number, screenA: number, transconductance: number): number =>
  (plateA / (plateA + screenA)) * (2.5 / transconductance + (shotPerV * screenA) / transconductance ** 2);
/** The same of a triode mixer, ohm, by its conversion transconductance. Source: 4/gc, Harris and Herold, from memory. */
export const triodeMixerNoiseOhm = (conversion: number): number => 4 / conversion;
/** The same of a pentode mixer, ohm. Source: as the amplifier with 4 for 2.5 and gc for gm, Harris, from memory. */
export const pentodeMixerNoiseOhm = (plateA: number, screenA: number, conversion: number): number =>
  (plateA / (plateA + screenA)) * (4 / conversion + (shotPerV * screenA) / conversion ** 2);
/** The same of a multigrid converter or mixer, ohm, by plate and whole cathode current. Source: 20 Ib (Ia - Ib)/(Ia gc^2), Harris, from memory. */
export const converterNoiseOhm = (plateA: number, cathodeA: number, conversion: number): number =>
  (shotPerV * plateA * (cathodeA - plateA)) / (cathodeA * conversion ** 2);

/**
 * Noise factor of a grid behind a tuned circuit: F = 1 + Gt/Gs + Req (Gs + Gt)^2/Gs.
 *
 * @param sourceOhm source as the grid sees it, ohm; 0 for the best there is
 * @param tankOhm parallel resistance of the circuit, ohm
 * @param reqOhm equivalent noise resistance of the tube and of all that follows, at this grid, ohm
 * @returns noise factor, ratio
 * @throws {PhysicsDomainError} when a resistance is not above 0 (0 is allowed for the source)
 * @source standard theory of the first stage; transit-time noise left out, so up to some 30 MHz (from memory)
 */
export function firstStageFactor(sourceOhm: number, tankOhm: number, reqOhm: number): number {
  needPositive("first stage", { tankOhm, reqOhm });
  const gt = 1 / tankOhm;
  const gs = sourceOhm > 0 ? 1 / sourceOhm : Math.sqrt(gt * gt + gt / reqOhm);
  return 1 + gt / gs + (reqOhm * (gs + gt) ** 2) / gs;
}

/** How a figure of sensitivity is meant. Anything left out makes it a different quantity. */
export const ratios = ["(S+N)/N", "S/N", "SINAD"] as const;
export const modes = ["AM", "CW or SSB"] as const;
export const levels = ["p.d.", "EMF"] as const;
export interface SensitivityDefinition {
  readonly ratio: (typeof ratios)[number];
  readonly db: number;
  readonly mode: (typeof modes)[number];
  /** depth of modulation, 0 to 1: of AM alone */
  readonly depth: number;
  /** noise bandwidth before the detector, Hz */
  readonly bandwidthHz: number;
  readonly sourceOhm: number;
  readonly level: (typeof levels)[number];
}
/**
 * Carrier to noise before the detector that a definition asks for, ratio of powers.
 *
 * @param d definition; `db` above 0
 * @returns ratio
 * @source S/N = r - 1 for (S+N)/N and SINAD (distortion left out); an envelope detector well above threshold gives m^2 C/N, derived and
 * confirmed by simulation elsewhere; a product detector gives C/N
 */
export function carrierToNoise(d: Pick<SensitivityDefinition, "ratio" | "db" | "mode" | "depth">): number {
  const s = d.ratio === "S/N" ? ratioOf(d.db) : ratioOf(d.db) - 1;
  return d.mode === "AM" ? s / d.depth ** 2 : s;
}
const emf = (d: SensitivityDefinition): number => (d.level === "EMF" ? 2 : 1);
/** Level that a noise factor asks for by a definition, V. Source: P = k T0 B F C/N, V = sqrt(P R), twice that as EMF. */
export const levelForFactorV = (factor: number, d: SensitivityDefinition): number =>
  emf(d) * Math.sqrt(kT0WPerHz * d.bandwidthHz * factor * carrierToNoise(d) * d.sourceOhm);
/** Noise factor that a level means by a definition, ratio. Source: the same, solved. */
export const factorOfLevel = (levelV: number, d: SensitivityDefinition): number =>
  (levelV / emf(d)) ** 2 / d.sourceOhm / (kT0WPerHz * d.bandwidthHz * carrierToNoise(d));

/** What a receiver's own noise costs against the world's: 10 log10((fa + fr - 1)/fa), dB. Source: ITU-R P.372, all at 290 K, no loss before the receiver. */
export const lossAgainstWorldDb = (worldFactor: number, receiverFactor: number): number =>
  dbOf((worldFactor + receiverFactor - 1) / worldFactor);
/** Noise factor that costs just so much, ratio. Source: the same, solved. */
export const factorForLoss = (worldFactor: number, lossDb: number): number => 1 + worldFactor * (ratioOf(lossDb) - 1);
/**
 * Gain that a converter or preamplifier needs before a receiver so that all cost no more than a loss.
 *
 * @param worldFactor external noise, ratio over k T0
 * @param ownFactor noise factor of what is put in front, ratio
 * @param receiverFactor noise factor of the receiver behind it, ratio
 * @param lossDb what all may cost, dB
 * @returns gain, ratio; undefined where its own noise spends the loss already
 * @source Friis' formula solved for the gain
 */
export function gainForLoss(worldFactor: number, ownFactor: number, receiverFactor: number, lossDb: number): number | undefined {
  const left = factorForLoss(worldFactor, lossDb) - ownFactor;
  return left > 0 ? (receiverFactor - 1) / left : undefined;
}
