import { type DialFit, dialAt, reach, wideningOf } from "../../infer/dial/fitted";
import { printValue } from "../../units/print";

/** Half-width of the law's 95 % interval, Hz. */
export const doubtHz = (fit: DialFit, reading: number): number => 1.96 * wideningOf(fit) * dialAt(fit, reading).uHz;

/** The straight line through the ends of the law. */
export function straightLine(fit: DialFit): (reading: number) => number {
  const [a, b] = [dialAt(fit, fit.low).hz, dialAt(fit, fit.high).hz];
  return (r) => a + ((b - a) * (r - fit.low)) / (fit.high - fit.low);
}

/** Axes: readings along the scale. */
export const readingsAlong = (fit: DialFit, points: number): Float64Array => {
  const [from, to] = reach(fit);
  return Float64Array.from({ length: points }, (_, i) => from + ((to - from) * i) / (points - 1));
};

/** A half-width, to two figures. */
export const roughly = (hz: number | null): string => `±${printValue(Number((hz ?? Number.NaN).toPrecision(2)), "frequency")}`;
/** A frequency in MHz to a hundred hertz, without idle zeros. */
export const mhz = (hz: number): string => `${(hz / 1e6).toFixed(4).replace(/0{1,3}$/, "")} MHz`;
