/**
 * Man-made and galactic noise: Fam = c - d log10(f / MHz), dB over k T0 b, T0 = 290 K.
 * Source: ITU-R P.372 tables of coefficients, as read in the reference code of ITU-R Study Group 3; galactic P.372-16 equation 13.
 */
export const environments = ["city", "residential", "rural", "quiet-rural"] as const;
export type Environment = (typeof environments)[number];
const coefficients: Readonly<Record<Environment, readonly [c: number, d: number]>> = {
  city: [76.8, 27.7],
  residential: [72.5, 27.7],
  rural: [67.2, 27.7],
  "quiet-rural": [53.6, 28.6],
};

/**
 * Median external noise figure: the larger of man-made and galactic noise.
 *
 * @param hz frequency, Hz
 * @param environment surroundings of the antenna
 * @returns Fam, dB
 * @source ITU-R P.372
 */
export function externalNoiseDb(hz: number, environment: Environment): number {
  const [c, d] = coefficients[environment];
  const mhz = Math.log10(hz / 1e6);
  return Math.max(c - d * mhz, 52 - 23 * mhz);
}
