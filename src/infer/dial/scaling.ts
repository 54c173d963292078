import { smoothTerms } from "../../numerics/smooth-basis";

/** The coordinates that a dial's law is linear in. */
export interface Scaling {
  readonly middle: number;
  readonly half: number;
  readonly oscillatorHz: number;
  readonly yMiddle: number;
  readonly yHalf: number;
  readonly backlash: number;
  /** the law is smooth in the oscillator's frequency to the minus this: 2, as a capacitor has it, unless it leans on expectations */
  readonly power: number;
}

/** coefficients of a law: cubic, sines, backlash */
export const dialTerms = smoothTerms + 1;

/**
 * Where an oscillator frequency lies in the coordinate that the law is linear in.
 *
 * @param oscHz oscillator frequency, Hz
 * @param s frame of the law
 * @returns z, about -1 to 1 along the points
 * @source f_osc to the minus power, which is linear in the capacitance at a power of 2
 */
export const zOf = (oscHz: number, s: Scaling): number => ((s.oscillatorHz / oscHz) ** s.power - s.yMiddle) / s.yHalf;
/**
 * Where a reading lies in the coordinate of the basis.
 *
 * @param reading scale, divisions
 * @param s frame of the law
 * @returns place, -1 to 1 along the points
 * @source definition
 */
export const placeOf = (reading: number, s: Scaling): number => (reading - s.middle) / s.half;
/**
 * The oscillator frequency at a z; the inverse of zOf.
 *
 * @param z coordinate of the law
 * @param s frame of the law
 * @returns oscillator frequency, Hz
 * @source inverse of zOf
 */
export function oscillatorAtHz(z: number, s: Scaling): number {
  const y = Math.max(1e-9, s.yMiddle + s.yHalf * z);
  // the two powers in use, without the general one, which takes ten times as long
  return s.oscillatorHz * (s.power === 2 ? 1 / Math.sqrt(y) : s.power === 0.5 ? 1 / (y * y) : y ** (-1 / s.power));
}
/**
 * Slope of the oscillator frequency by z.
 *
 * @param z coordinate of the law
 * @param s frame of the law
 * @returns Hz
 * @source derivative of oscillatorAtHz
 */
export const leverageHz = (z: number, s: Scaling): number =>
  (-s.oscillatorHz * s.yHalf * Math.max(1e-9, s.yMiddle + s.yHalf * z) ** (-1 / s.power - 1)) / s.power;
