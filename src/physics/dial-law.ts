/** Which way a band's oscillator runs, and what the dial sees of it. */
export interface Conversion {
  readonly intermediateHz: number;
  readonly oscillator: "above" | "below";
}

/**
 * Oscillator frequency at a signal frequency.
 *
 * @param signalHz frequency received, Hz
 * @param c conversion of the band
 * @returns Hz: f + IF with the oscillator above, |f - IF| with it below
 * @source superheterodyne, definition
 */
export const oscillatorHz = (signalHz: number, c: Conversion): number =>
  c.oscillator === "above" ? signalHz + c.intermediateHz : Math.abs(signalHz - c.intermediateHz);

/**
 * Signal frequency at an oscillator frequency; the inverse of oscillatorHz on the side where the signal lies above the IF.
 *
 * @param hz oscillator frequency, Hz
 * @param c conversion of the band
 * @returns Hz
 * @source superheterodyne, definition
 */
export const signalHz = (hz: number, c: Conversion): number => (c.oscillator === "above" ? hz - c.intermediateHz : hz + c.intermediateHz);

/**
 * What moves at one end of a bandspread scale when the main capacitor is moved: the bandspread capacitor stands in parallel with it, so that
 * 1/f^2 shifts by the same amount at every reading and the frequency by the cube of the oscillator's ratio.
 *
 *     df(r) / df(r0) = (f_osc(r) / f_osc(r0))^3
 *
 * @param signal frequency at the reading, Hz
 * @param reference frequency where the shift is known, Hz
 * @param c conversion of the band
 * @returns ratio of the shifts
 * @source derived from f = 1 / (2 pi sqrt(L (C + dC))), L the same; no published value was found, so it is checked with L and C
 * directly; limit 1 where both are one frequency
 */
export const setPointLeverage = (signal: number, reference: number, c: Conversion): number =>
  (oscillatorHz(signal, c) / oscillatorHz(reference, c)) ** 3;
