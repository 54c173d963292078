import { type DialFit, dialAt, hzAt, reach, wideningOf } from "../../infer/dial/fitted";
import { printValue } from "../../units/print";

/**
 * Half-width of the law's 95 % interval.
 *
 * @param fit the law
 * @param reading scale, divisions
 * @returns half-width, Hz
 * @source 1.96 standard uncertainties of a normal, widened as docs/proof.md measures it
 */
export const doubtHz = (fit: DialFit, reading: number): number => 1.96 * wideningOf(fit) * dialAt(fit, reading).uHz;

/**
 * The straight line through the ends of the law.
 *
 * @param fit the law
 * @returns frequency at a reading, Hz
 * @source definition
 */
export function straightLine(fit: DialFit): (reading: number) => number {
  const [a, b] = [hzAt(fit, fit.low), hzAt(fit, fit.high)];
  return (r) => a + ((b - a) * (r - fit.low)) / (fit.high - fit.low);
}

/**
 * Zero beats that a law was made from, off its straight line.
 *
 * @param fit the law
 * @returns readings, divisions, and what each beat's frequency is off the line there, Hz, from low to high
 * @source definition
 */
export function beatsOff(fit: DialFit): { readonly reading: Float64Array; readonly offHz: Float64Array } {
  const straight = straightLine(fit);
  const beats = [...fit.points].sort((a, b) => a.reading - b.reading);
  return {
    reading: Float64Array.from(beats, (p) => p.reading),
    offHz: Float64Array.from(beats, (p) => p.frequencyHz - straight(p.reading)),
  };
}

/**
 * Readings along all that the law speaks of.
 *
 * @param fit the law
 * @param pointsCount how many
 * @returns length `pointsCount`, divisions, evenly spaced
 * @source definition
 */
export const readingsAlong = (fit: DialFit, pointsCount: number): Float64Array => {
  const [from, to] = reach(fit);
  return Float64Array.from({ length: pointsCount }, (_, i) => from + ((to - from) * i) / (pointsCount - 1));
};

/**
 * A half-width, to two figures.
 *
 * @param hz half-width, Hz; null where there is none
 * @returns as a person reads it
 * @source house rule
 */
export const roughly = (hz: number | null): string => `±${printValue(Number((hz ?? Number.NaN).toPrecision(2)), "frequency")}`;
/**
 * A frequency in MHz to a hundred hertz, without idle zeros.
 *
 * @param hz frequency, Hz
 * @returns as a person reads it
 * @source house rule
 */
export const mhz = (hz: number): string => `${(hz / 1e6).toFixed(4).replace(/0{1,3}$/, "")} MHz`;
