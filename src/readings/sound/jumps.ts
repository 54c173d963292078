import { median } from "../../numerics/order";
import type { ToneReading } from "./follow";

/** Readings to each side that tell what a reading should be; fewer in all tell nothing. */
const beside = 7;
const fewest = 5;
/** A reading is off by this many standard deviations of those beside it, and of its own noise: noise alone does it less than once in a million. */
const offBy = 6;
/** From a normal distribution's median of distances to its standard deviation. */
const ofMedian = 1.4826;

/**
 * Readings in which the phase jumped and the tone then went on as before: sound was lost on its way in, or the tone was knocked. Their frequency is no
 * frequency of the tone. A tone that drifts, steps and stays, or wanders as a whole, has none.
 *
 * @param readings one after the other
 * @returns those in which it jumped
 * @source outliers by the running median and the median distance from it, textbook (Hampel's identifier)
 */
export function jumped(readings: readonly ToneReading[]): ReadonlySet<ToneReading> {
  if (readings.length < fewest) return new Set();
  const off = readings.map((r, i) => {
    const near = readings.slice(Math.max(0, i - beside), i + beside + 1);
    const middle = median(near.map((x) => x.hz));
    const spread = ofMedian * median(near.map((x) => Math.abs(x.hz - middle)));
    return Math.abs(r.hz - middle) > offBy * Math.hypot(r.uHz, spread);
  });
  // at either end nobody knows whether it went on as before
  const [first, last] = [off.indexOf(false), off.lastIndexOf(false)];
  return new Set(readings.filter((_, i) => off[i] && i > first && i < last));
}
