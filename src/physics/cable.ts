import { needPositive } from "./domain";

const lightMPerS = 299792458;

/**
 * Capacitance per length of a TEM line: C' = 1 / (Z0 VF c).
 *
 * A line shorter than 1/40 wavelength acts as the lumped capacitor C' l within 1 %.
 *
 * @param impedanceOhm characteristic impedance, ohm, above 0
 * @param velocityRatio velocity factor, above 0
 * @returns F/m
 * @throws {PhysicsDomainError} when an argument is not above 0
 * @source identity from v = 1/sqrt(L' C') and Z0 = sqrt(L'/C'); checked in cable.published.test.ts
 */
export function capacitancePerLengthFPerM(impedanceOhm: number, velocityRatio: number): number {
  needPositive("cable capacitance", { impedanceOhm, velocityRatio });
  return 1 / (impedanceOhm * velocityRatio * lightMPerS);
}

/**
 * Phase of a line at a frequency: beta l = 2 pi f l / (VF c).
 *
 * @param frequencyHz Hz
 * @param lengthM m
 * @param velocityRatio velocity factor, above 0
 * @returns radian
 * @source identity
 */
export const linePhaseRad = (frequencyHz: number, lengthM: number, velocityRatio: number): number =>
  (2 * Math.PI * frequencyHz * lengthM) / (velocityRatio * lightMPerS);

/**
 * Susceptance of a lossless line, open at the far end: B = tan(beta l) / Z0.
 *
 * Loss is left out: at 455 kHz a metre of the usual types conducts under 0.1 uS (polyethylene, loss factor 2e-4, from memory), a few
 * hundredths of what the coil that takes it up does.
 *
 * @param frequencyHz Hz
 * @param lengthM m
 * @param impedanceOhm ohm
 * @param velocityRatio velocity factor
 * @returns S
 * @source transmission-line equation, open end; limit w C' l for a short line checked in cable.property.test.ts
 */
export const openLineSusceptanceS = (frequencyHz: number, lengthM: number, impedanceOhm: number, velocityRatio: number): number =>
  Math.tan(linePhaseRad(frequencyHz, lengthM, velocityRatio)) / impedanceOhm;

/**
 * How much more an open line conducts than its lumped capacitance says: tan(x)/x - 1 with x = beta l, about x^2/3.
 *
 * @param frequencyHz Hz
 * @param lengthM m
 * @param velocityRatio velocity factor
 * @returns ratio
 * @source transmission-line equation; series of tan
 */
export function lumpedErrorRatio(frequencyHz: number, lengthM: number, velocityRatio: number): number {
  const x = linePhaseRad(frequencyHz, lengthM, velocityRatio);
  return x < 1e-4 ? (x * x) / 3 : Math.tan(x) / x - 1;
}

/**
 * Length at which the lumped capacitance is wrong by a given ratio: from x^2/3 (1 + 2 x^2/5) = ratio.
 *
 * @param frequencyHz Hz
 * @param velocityRatio velocity factor
 * @param errorRatio ratio, up to 0.1
 * @returns m
 * @source series of tan, inverted to second order
 */
export function lumpedLimitM(frequencyHz: number, velocityRatio: number, errorRatio: number): number {
  const square = 3 * errorRatio * (1 - 1.2 * errorRatio);
  return Math.sqrt(square) / linePhaseRad(frequencyHz, 1, velocityRatio);
}
